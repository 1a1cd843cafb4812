using System.Text.Json.Nodes;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Schemas;

/// <summary>
/// The OpenAPI document of HTTP with JSON, made from the contract: its routes, its comments and its checks. Names are the contract's
/// JSON names; the reader takes the names of the protos and of plan files, too.
/// </summary>
public sealed class OpenApiDocument
{
    private const string Json = "application/json", JsonLines = "application/x-ndjson", Yaml = "application/yaml";

    private readonly SortedDictionary<string, JsonObject> _schemas = new(StringComparer.Ordinal);

    private OpenApiDocument()
    {
    }

    /// <summary>Makes the document, OpenAPI 3.1.</summary>
    public static JsonObject Create()
    {
        var document = new OpenApiDocument();
        var paths = new JsonObject();
        var tags = new JsonArray();
        ServiceDescriptor[] services = [Contract.PlanCheckService.Descriptor, Contract.CalculationService.Descriptor, Contract.RuleCatalogService.Descriptor, Contract.ReviewService.Descriptor];
        foreach (var service in services)
        {
            tags.Add(new JsonObject { ["name"] = service.Name, ["description"] = ContractComments.Of(service) });
            foreach (var method in service.Methods)
            {
                if (HttpRoute.Of(method) is { } route)
                {
                    var item = paths[route.Template]?.AsObject() ?? [];
                    item[route.Verb.ToLowerInvariant()] = document.Operation(method, route);
                    paths[route.Template] = item;
                }
            }
        }

        return new JsonObject
        {
            ["openapi"] = "3.1.0",
            ["info"] = new JsonObject
            {
                ["title"] = "FoamRules",
                ["version"] = "v1",
                ["description"] = "Judges plans for two-component polyurethane foam work. It defers to the product's data sheet, local codes, the authority having jurisdiction and licensed practice. A plan that fails its requirements is answered with 200 and findings; whatever could not be answered is a problem by RFC 9457.",
                ["license"] = new JsonObject { ["name"] = "MIT", ["identifier"] = "MIT" },
            },
            ["tags"] = tags,
            ["paths"] = paths,
            ["components"] = new JsonObject
            {
                ["schemas"] = document.Schemas(),
                ["parameters"] = Callers(),
                ["responses"] = new JsonObject
                {
                    ["Problem"] = new JsonObject
                    {
                        ["description"] = "Why there is no answer.",
                        ["headers"] = new JsonObject
                        {
                            ["Retry-After"] = new JsonObject { ["description"] = "With 429: the seconds after which to ask again.", ["schema"] = new JsonObject { ["type"] = "integer" } },
                        },
                        ["content"] = new JsonObject { ["application/problem+json"] = new JsonObject { ["schema"] = Reference("Problem") } },
                    },
                },
            },
        };
    }

    private JsonObject Schemas()
    {
        _schemas["Problem"] = ProblemSchema();
        Named(Contract.Violation.Descriptor);
        return new JsonObject(_schemas.Select(pair => KeyValuePair.Create(pair.Key, (JsonNode?)pair.Value)));
    }

    private static JsonObject Callers() => new()
    {
        ["Actor"] = Header("x-actor", "Who acts, by name. A name in other letters than ASCII goes into x-actor-bin, UTF-8 in Base64.", new JsonObject { ["type"] = "string", ["maxLength"] = 200 }),
        ["Role"] = Header("x-role", "In which capacity.", new JsonObject { ["type"] = "string", ["enum"] = new JsonArray("office", "safety-officer", "crew-lead", "reader") }),
    };

    private static JsonObject Header(string name, string description, JsonObject schema) => new() { ["name"] = name, ["in"] = "header", ["description"] = description, ["schema"] = schema };

    private JsonObject Operation(MethodDescriptor method, HttpRoute route)
    {
        var comment = ContractComments.Of(method);
        var end = comment.IndexOf(". ", StringComparison.Ordinal);
        var parameters = new JsonArray();
        foreach (var field in method.InputType.Fields.InDeclarationOrder())
        {
            var inPath = route.PathFields.Contains(field.Name);
            if (inPath || (!route.WholeRequest && field.Name != route.Body))
            {
                parameters.Add(Parameter(field, inPath));
            }
        }

        if (method.Service == Contract.ReviewService.Descriptor)
        {
            parameters.Add(new JsonObject { ["$ref"] = "#/components/parameters/Actor" });
            parameters.Add(new JsonObject { ["$ref"] = "#/components/parameters/Role" });
        }

        var operation = new JsonObject
        {
            ["operationId"] = $"{method.Service.Name}_{method.Name}",
            ["tags"] = new JsonArray(method.Service.Name),
            ["summary"] = (end < 0 ? comment : comment[..(end + 1)]).TrimEnd('.'),
            ["description"] = comment,
        };
        if (parameters.Count > 0)
        {
            operation["parameters"] = parameters;
        }

        if (route.Body.Length > 0)
        {
            var type = route.WholeRequest ? method.InputType : method.InputType.FindFieldByName(route.Body).MessageType;
            operation["requestBody"] = new JsonObject
            {
                ["required"] = true,
                ["content"] = method.IsClientStreaming ? Content(type, "One request a line.", JsonLines) : Content(type, null, Json, Yaml),
            };
        }

        var answers = method.IsServerStreaming ? Content(method.OutputType, "One answer a line.", JsonLines) : Content(method.OutputType, null, Json);
        if (method.OutputType == Contract.CheckPlanResponse.Descriptor)
        {
            answers[SarifLog.MediaType] = new JsonObject { ["schema"] = new JsonObject { ["type"] = "object", ["description"] = "A log by SARIF 2.1.0, where the caller accepts it." } };
        }

        operation["responses"] = new JsonObject
        {
            ["200"] = new JsonObject
            {
                ["description"] = ContractComments.Of(method.OutputType),
                ["content"] = answers,
            },
            ["default"] = new JsonObject { ["$ref"] = "#/components/responses/Problem" },
        };
        return operation;
    }

    private JsonObject Content(MessageDescriptor type, string? description, params string[] mediaTypes)
    {
        var content = new JsonObject();
        foreach (var mediaType in mediaTypes)
        {
            var schema = Reference(Named(type));
            if (description is not null)
            {
                schema["description"] = description;
            }

            content[mediaType] = new JsonObject { ["schema"] = schema };
        }

        return content;
    }

    private JsonObject Parameter(FieldDescriptor field, bool inPath) => new()
    {
        // In the path a field stands under the name that the template has for it.
        ["name"] = inPath ? field.Name : field.JsonName,
        ["in"] = inPath ? "path" : "query",
        ["description"] = ContractComments.Of(field),
        ["required"] = inPath || FieldChecker.CheckOf(field).Required,
        ["schema"] = Field(field, described: false),
    };

    private string Named(MessageDescriptor type)
    {
        var name = type.FullName.StartsWith("foamrules.v1.", StringComparison.Ordinal) ? type.Name : type.FullName;
        if (!_schemas.ContainsKey(name))
        {
            // Known before its fields are gone through: a message can contain itself.
            _schemas[name] = [];
            _schemas[name] = Message(type);
        }

        return name;
    }

    private JsonObject Message(MessageDescriptor type)
    {
        var schema = new JsonObject { ["type"] = "object" };
        if (ContractComments.Of(type) is { Length: > 0 } comment)
        {
            schema["description"] = comment;
        }

        schema["properties"] = new JsonObject(type.Fields.InDeclarationOrder().Select(field => KeyValuePair.Create(field.JsonName, (JsonNode?)Field(field, described: true))));
        // What stands in the path may be left out of the body.
        var required = type.Fields.InDeclarationOrder().Where(field => FieldChecker.CheckOf(field).Required && field.Name != "review_id").Select(field => (JsonNode?)field.JsonName).ToArray();
        if (required.Length > 0)
        {
            schema["required"] = new JsonArray(required);
        }

        return schema;
    }

    private JsonObject Field(FieldDescriptor field, bool described)
    {
        var check = FieldChecker.CheckOf(field);
        var schema = Value(field, check);
        if (field.IsRepeated)
        {
            schema = new JsonObject { ["type"] = "array", ["items"] = schema };
            if (check.HasMaxItems)
            {
                schema["maxItems"] = check.MaxItems;
            }
        }

        if (described && ContractComments.Of(field) is { Length: > 0 } comment)
        {
            schema["description"] = comment;
        }

        return schema;
    }

    private JsonObject Value(FieldDescriptor field, Contract.FieldCheck check)
    {
        switch (field.FieldType)
        {
            case FieldType.Message when field.MessageType.FullName == Timestamp.Descriptor.FullName:
                return new JsonObject { ["type"] = "string", ["format"] = "date-time" };
            case FieldType.Message when field.MessageType.FullName == Any.Descriptor.FullName:
                return new JsonObject { ["type"] = "object", ["properties"] = new JsonObject { ["@type"] = new JsonObject { ["type"] = "string" } } };
            case FieldType.Message:
                return Reference(Named(field.MessageType));
            case FieldType.Enum:
                return Reference(Enum(field.EnumType));
            case FieldType.Bool:
                return new JsonObject { ["type"] = "boolean" };
            case FieldType.String:
                return Text(check);
            case FieldType.Bytes:
                return new JsonObject { ["type"] = "string", ["contentEncoding"] = "base64" };
            case FieldType.Int64:
                // Written as text, since many readers of JSON have no whole numbers of 64 bits; read as either.
                return new JsonObject { ["type"] = new JsonArray("string", "integer"), ["format"] = "int64" };
            default:
                var number = new JsonObject { ["type"] = field.FieldType == FieldType.Double ? "number" : "integer" };
                if (check.HasAtLeast)
                {
                    number["minimum"] = check.AtLeast;
                }

                if (check.HasAtMost)
                {
                    number["maximum"] = check.AtMost;
                }

                return number;
        }
    }

    private static JsonObject Text(Contract.FieldCheck check)
    {
        var text = new JsonObject { ["type"] = "string" };
        if (check.HasMaxCharacters)
        {
            text["maxLength"] = check.MaxCharacters;
        }

        if (check.Format == Contract.TextFormat.Date)
        {
            text["format"] = "date";
        }

        return text;
    }

    private string Enum(EnumDescriptor type)
    {
        var values = type.Values;
        _schemas.TryAdd(type.Name, new JsonObject
        {
            ["type"] = "string",
            ["description"] = $"{ContractComments.Of(type)} Read by the short names of plan files, too, such as {EnumNames.Short(type, values[^1].Name)}.\n{string.Join('\n', values.Select(value => $"{value.Name}: {ContractComments.Of(value)}"))}",
            ["enum"] = new JsonArray([.. values.Select(value => (JsonNode?)value.Name)]),
        });
        return type.Name;
    }

    private static JsonObject ProblemSchema()
    {
        static JsonObject Typed(string type, string description) => new() { ["type"] = type, ["description"] = description };
        return new JsonObject
        {
            ["type"] = "object",
            ["description"] = "Problem details by RFC 9457.",
            ["required"] = new JsonArray("type", "title", "status", "detail"),
            ["properties"] = new JsonObject
            {
                ["type"] = Typed("string", "What kind of problem it is, such as urn:foamrules:problem:plan-unreadable."),
                ["title"] = Typed("string", "The kind in words."),
                ["status"] = Typed("integer", "The status of HTTP."),
                ["detail"] = Typed("string", "What went wrong this time."),
                ["code"] = Typed("string", "The status that gRPC would answer, such as INVALID_ARGUMENT."),
                ["reason"] = Typed("string", "The reason of google.rpc.ErrorInfo, such as PLAN_UNREADABLE."),
                ["metadata"] = new JsonObject { ["type"] = "object", ["description"] = "What google.rpc.ErrorInfo says besides.", ["additionalProperties"] = new JsonObject { ["type"] = "string" } },
                ["callId"] = Typed("string", "The call's id, under which the service's log has it; also in x-request-id."),
                ["violations"] = new JsonObject { ["type"] = "array", ["description"] = "Every value that is impossible or cannot be read.", ["items"] = Reference("Violation") },
            },
        };
    }

    private static JsonObject Reference(string name) => new() { ["$ref"] = $"#/components/schemas/{name}" };
}
