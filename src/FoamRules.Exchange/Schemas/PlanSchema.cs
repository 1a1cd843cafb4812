using System.Globalization;
using System.Text.Json.Nodes;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Schemas;

/// <summary>
/// The JSON Schema of plans, made from the contract and its checks, so that an editor completes and checks a plan while it is
/// written. What the schema accepts the reader can read. The reader takes a few spellings more, such as numbers in quotes.
/// </summary>
public sealed class PlanSchema
{
    private readonly SortedDictionary<string, JsonObject> _definitions = new(StringComparer.Ordinal);

    private PlanSchema()
    {
    }

    /// <summary>Makes the schema, by draft 7, which editors know best.</summary>
    public static JsonObject Create()
    {
        var schema = new PlanSchema();
        var plan = schema.Fields(Contract.Plan.Descriptor);
        var root = new JsonObject
        {
            ["$schema"] = "http://json-schema.org/draft-07/schema#",
            ["title"] = "A FoamRules plan",
            ["description"] = "One job of two-component polyurethane foam work. What is not known is left out: the report says what waits for it.",
            ["type"] = "object",
        };
        foreach (var (name, value) in plan.ToList())
        {
            plan.Remove(name);
            root[name] = value;
        }

        root["definitions"] = new JsonObject(schema._definitions.Select(pair => KeyValuePair.Create(pair.Key, (JsonNode?)pair.Value)));
        return root;
    }

    // Draft 7 takes no word beside a $ref, so it stands in an allOf.
    private static JsonObject Referring(string name, JsonObject more)
    {
        more["allOf"] = new JsonArray(new JsonObject { ["$ref"] = $"#/definitions/{name}" });
        return more;
    }

    // The contract's JSON names are read too; editors know by this word that they need not offer both.
    private static JsonObject Unsuggested(string name) => Referring(name, new JsonObject { ["doNotSuggest"] = true });

    private JsonObject Fields(MessageDescriptor message)
    {
        var properties = new JsonObject();
        var needed = new JsonArray();
        foreach (var field in message.Fields.InDeclarationOrder())
        {
            properties[field.Name] = Field(field);
            if (field.JsonName != field.Name)
            {
                properties[field.JsonName] = Unsuggested(Named(field));
            }

            if (FieldChecker.CheckOf(field).Required)
            {
                needed.Add(Given(field));
            }
        }

        foreach (var oneof in message.Oneofs.Where(oneof => !oneof.IsSynthetic))
        {
            needed.Add(new JsonObject { ["oneOf"] = new JsonArray([.. oneof.Fields.Select(Given)]) });
        }

        var schema = new JsonObject { ["properties"] = properties };
        schema["additionalProperties"] = false;
        if (needed.Count > 0)
        {
            schema["allOf"] = needed;
        }

        return schema;
    }

    // A field under its other name is the same schema; it stands under the name of its message and its own.
    private string Named(FieldDescriptor field)
    {
        var name = $"{field.ContainingType.Name}.{field.Name}";
        if (!_definitions.ContainsKey(name))
        {
            _definitions[name] = [];
            _definitions[name] = Field(field);
        }

        return name;
    }

    private static JsonNode Given(FieldDescriptor field)
    {
        static JsonObject Required(string name) => new() { ["required"] = new JsonArray(name) };
        return field.JsonName == field.Name ? Required(field.Name) : new JsonObject { ["anyOf"] = new JsonArray(Required(field.Name), Required(field.JsonName)) };
    }

    private JsonObject Field(FieldDescriptor field)
    {
        var check = FieldChecker.CheckOf(field);
        var described = new JsonObject();
        if (ContractComments.Of(field) is { Length: > 0 } comment)
        {
            described["description"] = comment;
        }

        if (!field.IsRepeated)
        {
            return Value(field, check, described, mayBeNull: !check.Required && field.RealContainingOneof is null);
        }

        described["type"] = Types("array", mayBeNull: !check.Required);
        described["items"] = Value(field, check, [], mayBeNull: false);
        if (check.Required)
        {
            described["minItems"] = 1;
        }

        if (check.HasMaxItems)
        {
            described["maxItems"] = check.MaxItems;
        }

        return described;
    }

    // Nothing after a name is the same as leaving the field out.
    private static JsonNode Types(string type, bool mayBeNull) => mayBeNull ? new JsonArray(type, "null") : JsonValue.Create(type);

    private JsonObject Value(FieldDescriptor field, Contract.FieldCheck check, JsonObject schema, bool mayBeNull)
    {
        switch (field.FieldType)
        {
            case FieldType.Message when field.MessageType.FullName == Timestamp.Descriptor.FullName:
                schema["type"] = Types("string", mayBeNull);
                schema["pattern"] = @"^\d{4}-\d{2}-\d{2}[Tt ]\d{2}:\d{2}(:\d{2}(\.\d{1,7})?)?([Zz]|[+-]\d{2}:\d{2})$";
                schema["examples"] = new JsonArray("2026-04-14T07:40:00-05:00");
                return schema;
            case FieldType.Message:
                schema["type"] = Types("object", mayBeNull);
                return Referring(QuantityMap.IsQuantity(field.MessageType) ? Quantity(field.MessageType, check) : Message(field.MessageType), schema);
            case FieldType.Enum:
                schema["type"] = Types("string", mayBeNull);
                return Referring(Enum(field.EnumType), schema);
            case FieldType.Bool:
                schema["type"] = Types("boolean", mayBeNull);
                return schema;
            case FieldType.String:
                schema["type"] = Types("string", mayBeNull);
                return Text(check, schema);
            default:
                schema["type"] = Types(field.FieldType == FieldType.Double ? "number" : "integer", mayBeNull);
                if (check.HasAtLeast)
                {
                    schema["minimum"] = check.AtLeast;
                }

                if (check.HasAtMost)
                {
                    schema["maximum"] = check.AtMost;
                }

                return schema;
        }
    }

    private static JsonObject Text(Contract.FieldCheck check, JsonObject schema)
    {
        schema["maxLength"] = check.HasMaxCharacters ? check.MaxCharacters : FieldChecker.MostCharacters;
        if (check.Required)
        {
            schema["minLength"] = 1;
        }

        var (pattern, example) = check.Format switch
        {
            Contract.TextFormat.Date => (@"^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$", "2026-04-14"),
            Contract.TextFormat.TimeOfDay => (@"^([01]\d|2[0-3]):[0-5]\d$", "07:00"),
            Contract.TextFormat.TimeZone => (@"^\S+$", "America/Chicago"),
            Contract.TextFormat.Id => (@"^[A-Za-z0-9._-]{1,60}$", ""),
            Contract.TextFormat.Country => ("^[A-Z]{2}$", "US"),
            Contract.TextFormat.Region => ("^[A-Z0-9-]{2}-[A-Z0-9-]{1,3}$", "US-MN"),
            _ => ("", ""),
        };
        if (pattern.Length > 0)
        {
            schema["pattern"] = pattern;
        }

        if (example.Length > 0)
        {
            schema["examples"] = new JsonArray(example);
        }

        return schema;
    }

    private string Message(MessageDescriptor message)
    {
        if (!_definitions.ContainsKey(message.Name))
        {
            // Known before its fields are gone through: a message can contain itself.
            _definitions[message.Name] = [];
            var schema = Fields(message);
            schema.Insert(0, "description", ContractComments.Of(message));
            _definitions[message.Name] = schema;
        }

        return message.Name;
    }

    private string Enum(EnumDescriptor type)
    {
        var values = type.Values.Where(value => value.Number != 0).ToList();
        var names = values.Select(value => EnumNames.Short(type, value.Name)).ToList();
        var said = values.Zip(names).Select(pair => $"{pair.Second}: {ContractComments.Of(pair.First)}");
        _definitions.TryAdd(type.Name, new JsonObject
        {
            ["description"] = $"{ContractComments.Of(type)}\n{string.Join('\n', said)}",
            ["anyOf"] = new JsonArray(
                new JsonObject { ["enum"] = new JsonArray([.. names.Select(name => JsonValue.Create(name))]) },
                // The other spellings: the contract's name, with or without the enum's, and small letters with _ or a space.
                new JsonObject { ["pattern"] = $"^({EnumNames.Prefix(type)})?({string.Join('|', values.Select(value => value.Name[EnumNames.Prefix(type).Length..]))})$" },
                new JsonObject { ["pattern"] = $"^({string.Join('|', names.Select(name => name.Replace("-", "[-_ ]", StringComparison.Ordinal)))})$" }),
        });
        return type.Name;
    }

    // One value under the name of its unit. Fields with other bounds have a definition of their own.
    private string Quantity(MessageDescriptor type, Contract.FieldCheck check)
    {
        var bounds = (check.HasAtLeast ? $".from.{Shown(check.AtLeast)}" : "") + (check.HasAtMost ? $".to.{Shown(check.AtMost)}" : "");
        var name = type.Name + bounds;
        if (_definitions.ContainsKey(name))
        {
            return name;
        }

        var first = QuantityMap.FirstUnit(type);
        var least = QuantityMap.From(FieldChecker.LeastOf(check, type), first);
        var units = new JsonObject();
        foreach (var unit in type.Fields.InDeclarationOrder())
        {
            var value = new JsonObject
            {
                ["description"] = ContractComments.Of(unit),
                ["type"] = "number",
                ["minimum"] = Bound(Math.Max(QuantityMap.In(least, unit), -FieldChecker.MostOfAnything)),
                ["maximum"] = Bound(check.HasAtMost ? Math.Min(QuantityMap.In(QuantityMap.From(check.AtMost, first), unit), FieldChecker.MostOfAnything) : FieldChecker.MostOfAnything),
            };
            units[unit.Name] = value;
            if (unit.JsonName != unit.Name)
            {
                var other = value.DeepClone().AsObject();
                other["doNotSuggest"] = true;
                units[unit.JsonName] = other;
            }
        }

        _definitions[name] = new JsonObject
        {
            ["description"] = ContractComments.Of(type),
            ["properties"] = units,
            ["additionalProperties"] = false,
            ["minProperties"] = 1,
            ["maxProperties"] = 1,
        };
        return name;
    }

    // Rounding in a change of unit shows far behind the point; the reader allows for it.
    private static double Bound(double value) => double.Parse(value.ToString("G9", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string Shown(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
