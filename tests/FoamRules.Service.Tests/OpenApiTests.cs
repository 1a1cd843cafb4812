using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.Service.Tests;

/// <summary>The OpenAPI document, read by a library that knows nothing of how it was made.</summary>
public sealed class OpenApiTests(RunningWeb web) : IClassFixture<RunningWeb>
{
    private static readonly Google.Protobuf.Reflection.ServiceDescriptor[] Services = [PlanCheckService.Descriptor, CalculationService.Descriptor, RuleCatalogService.Descriptor, ReviewService.Descriptor];

    [Fact]
    public async Task It_is_served_and_stands_among_the_schemas()
    {
        var text = ReadableJson.Write(FoamRules.Exchange.Schemas.OpenApiDocument.Create());
        Assert.Equal(text, await web.Answer(HttpMethod.Get, "/openapi.json"));
        Assert.Equal(text, Generated.Read(Repository.PathOf("docs", "schemas", "openapi.json"), text));
    }

    [Fact]
    public void It_can_be_read_without_an_error_and_has_every_method_described_with_its_problems()
    {
        var read = Microsoft.OpenApi.OpenApiDocument.Parse(FoamRules.Exchange.Schemas.OpenApiDocument.Create().ToJsonString(), "json");
        Assert.Empty(read.Diagnostic!.Errors.Select(error => error.ToString()));
        Assert.Empty(read.Diagnostic.Warnings.Select(warning => warning.ToString()));
        var operations = read.Document!.Paths.SelectMany(path => path.Value.Operations!.Values).ToDictionary(operation => operation.OperationId!);
        var methods = Services.SelectMany(service => service.Methods).ToList();
        Assert.Equal(methods.Select(method => $"{method.Service.Name}_{method.Name}").Order(StringComparer.Ordinal), operations.Keys.Order(StringComparer.Ordinal));
        foreach (var operation in operations.Values)
        {
            Assert.NotEmpty(operation.Summary!);
            Assert.NotEmpty(operation.Responses!["200"].Description!);
            Assert.Contains("application/problem+json", operation.Responses["default"].Content!.Keys);
            Assert.NotEmpty(operation.Responses["200"].Content!.Single(content => content.Key != SarifLog.MediaType).Value.Schema!.Properties!);
        }

        var check = operations["PlanCheckService_CheckPlan"];
        Assert.Contains("work", check.RequestBody!.Content!["application/yaml"].Schema!.Properties!.Keys);
        Assert.Equal(["units", "pictures", "remedies", "language"], check.Parameters!.Select(parameter => parameter.Name));
    }

    [Fact]
    public void Every_method_has_a_route_whose_names_are_fields_of_its_request()
    {
        var routes = Services.SelectMany(service => service.Methods).Select(method => (Method: method, Route: HttpRoute.Of(method))).ToList();
        Assert.All(routes, one =>
        {
            Assert.NotNull(one.Route);
            Assert.StartsWith("/v1/", one.Route.Template, StringComparison.Ordinal);
            Assert.All(one.Route.PathFields.Concat(one.Route.Body is "" or "*" ? [] : [one.Route.Body]), field => Assert.NotNull(one.Method.InputType.FindFieldByName(field)));
        });
        Assert.Equal(routes.Count, routes.Select(one => (one.Route!.Verb, one.Route.Template)).Distinct().Count());
    }
}
