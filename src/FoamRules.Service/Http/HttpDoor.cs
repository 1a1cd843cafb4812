using FoamRules.Access;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Exchange.Schemas;
using FoamRules.Text;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Grpc.AspNetCore.Server;
using Grpc.Core;
using Grpc.Core.Interceptors;
using Microsoft.Extensions.Options;
using ServiceDescriptor = Google.Protobuf.Reflection.ServiceDescriptor;

namespace FoamRules.Service.Http;

/// <summary>
/// The methods of gRPC over HTTP with JSON, by the routes that the contract gives them: read by the reader of plans, answered by the
/// same methods through the same interceptors, failures as problem details.
/// </summary>
/// <remarks>
/// The framework's own JSON transcoding drops names that it does not know, so that a fact with a slip in its name would be judged as
/// not given; it ends at the first error and cannot say where it stands; and it knows no stream of requests.
/// </remarks>
internal sealed class HttpDoor : ServiceBinderBase
{
    /// <summary>The most bytes that many requests in one body may have.</summary>
    public const int MostBytesOfLines = 4 * ServiceHost.MaxMessageBytes;

    /// <summary>How answers are written; the details of a status within one are known by their types.</summary>
    public static readonly JsonFormatter Json = new(JsonFormatter.Settings.Default.WithTypeRegistry(TypeRegistry.FromFiles(ErrorDetailsReflection.Descriptor)));

    private readonly WebApplication _service;
    private readonly ServiceDescriptor _descriptor;
    private readonly RequestInterceptor _requests;
    private readonly Interceptor[] _interceptors;
    private readonly SortedDictionary<string, string> _verbs;

    private HttpDoor(WebApplication service, ServiceDescriptor descriptor, Interceptor[] interceptors, SortedDictionary<string, string> verbs)
    {
        (_service, _descriptor, _interceptors, _verbs) = (service, descriptor, interceptors, verbs);
        _requests = service.Services.GetRequiredService<RequestInterceptor>();
    }

    /// <summary>Problems for what is asked below <c>/v1</c> and is not there; before the routes are mapped.</summary>
    public static void UseProblems(WebApplication service) =>
        service.UseWhen(http => http.Request.Path.StartsWithSegments("/v1"), below =>
            below.UseStatusCodePages(pages => Problem.Write(pages.HttpContext.Response, CallProblem.Of(pages.HttpContext.Response.StatusCode, AskedLanguage.PatternsOf(pages.HttpContext)))));

    /// <summary>Maps the methods of the services, and the document that describes them.</summary>
    /// <param name="service">The service.</param>
    /// <param name="reviews">True where it keeps reviews.</param>
    public static void Map(WebApplication service, bool reviews)
    {
        var verbs = new SortedDictionary<string, string>(StringComparer.Ordinal);
        PlanCheckService.BindService(Of<PlanCheckEndpoint>(service, PlanCheckService.Descriptor, verbs, out var checks), checks);
        CalculationService.BindService(Of<CalculationEndpoint>(service, CalculationService.Descriptor, verbs, out var calculations), calculations);
        RuleCatalogService.BindService(Of<RuleCatalogEndpoint>(service, RuleCatalogService.Descriptor, verbs, out var catalog), catalog);
        if (reviews)
        {
            ReviewService.BindService(Of<ReviewEndpoint>(service, ReviewService.Descriptor, verbs, out var desk), desk);
        }

        // The framework would answer this by itself, were it not for the routes by which gRPC answers for methods that it does not know.
        foreach (var (template, allowed) in verbs)
        {
            service.Map(template, http =>
            {
                http.Response.Headers.Allow = allowed;
                return Problem.Write(http.Response, CallProblem.Of(StatusCodes.Status405MethodNotAllowed, AskedLanguage.PatternsOf(http)));
            }).WithOrder(1);
        }

        var document = ReadableJson.Write(OpenApiDocument.Create());
        service.MapGet("/openapi.json", http =>
        {
            http.Response.ContentType = "application/json";
            return http.Response.WriteAsync(document, http.RequestAborted);
        });
    }

    /// <inheritdoc/>
    public override void AddMethod<TRequest, TResponse>(Method<TRequest, TResponse> method, UnaryServerMethod<TRequest, TResponse>? handler)
    {
        var call = _interceptors.Reverse().Aggregate(handler!, (next, interceptor) => (request, context) => interceptor.UnaryServerHandler(request, context, next));
        Map(method.Name, async (http, route, descriptor, context) =>
        {
            var input = await Read<TRequest, TResponse>(http, route, descriptor, context).ConfigureAwait(false);
            try
            {
                var answer = await call((TRequest)input.Message, context).ConfigureAwait(false);
                var sarif = answer is CheckPlanResponse && http.Request.Headers.Accept.Any(accept => accept?.Contains(SarifLog.MediaType, StringComparison.OrdinalIgnoreCase) is true);
                http.Response.ContentType = sarif ? SarifLog.MediaType : "application/json";
                await http.Response.WriteAsync(sarif ? Sarif((CheckPlanResponse)(object)answer) : Json.Format((IMessage)answer), http.RequestAborted).ConfigureAwait(false);
            }
            catch (UnusableException error)
            {
                throw input.WithLines(error);
            }
        });
    }

    /// <inheritdoc/>
    public override void AddMethod<TRequest, TResponse>(Method<TRequest, TResponse> method, ServerStreamingServerMethod<TRequest, TResponse>? handler)
    {
        var call = _interceptors.Reverse().Aggregate(handler!, (next, interceptor) => (request, writer, context) => interceptor.ServerStreamingServerHandler(request, writer, context, next));
        Map(method.Name, async (http, route, descriptor, context) =>
        {
            var input = await Read<TRequest, TResponse>(http, route, descriptor, context).ConfigureAwait(false);
            await Lines<TResponse>(http, context, writer => call((TRequest)input.Message, writer, context)).ConfigureAwait(false);
        });
    }

    /// <inheritdoc/>
    public override void AddMethod<TRequest, TResponse>(Method<TRequest, TResponse> method, DuplexStreamingServerMethod<TRequest, TResponse>? handler)
    {
        var call = _interceptors.Reverse().Aggregate(handler!, (next, interceptor) => (reader, writer, context) => interceptor.DuplexStreamingServerHandler(reader, writer, context, next));
        Map(method.Name, async (http, _, descriptor, context) =>
        {
            // The body is read whole before the first answer: few clients of HTTP read while they still send.
            var lines = await Refusing<TRequest, TResponse, string[]>(() => HttpBody.ReadLines(http.Request), descriptor, context).ConfigureAwait(false);
            await Lines<TResponse>(http, context, writer => call(
                new LineReader<TRequest>(lines, descriptor.InputType, (line, error) => writer.Refuse(line, CallProblem.Of(error, RequestInterceptor.IdOf(context), AskedLanguage.PatternsOf(context.GetHttpContext())))), writer, context)).ConfigureAwait(false);
        });
    }

    private static HttpDoor Of<TEndpoint>(WebApplication service, ServiceDescriptor descriptor, SortedDictionary<string, string> verbs, out TEndpoint endpoint)
        where TEndpoint : class
    {
        endpoint = ActivatorUtilities.CreateInstance<TEndpoint>(service.Services);
        // Whatever stands before a method over gRPC stands before it here: one list, so that no door is left open.
        var registered = service.Services.GetRequiredService<IOptions<GrpcServiceOptions>>().Value.Interceptors
            .Concat(service.Services.GetRequiredService<IOptions<GrpcServiceOptions<TEndpoint>>>().Value.Interceptors);
        return new HttpDoor(service, descriptor, [.. registered.Select(one => (Interceptor)(one.Arguments.Count == 0
            ? ActivatorUtilities.GetServiceOrCreateInstance(service.Services, one.Type)
            : ActivatorUtilities.CreateInstance(service.Services, one.Type, [.. one.Arguments])))], verbs);
    }

    private string Sarif(CheckPlanResponse answer)
    {
        var report = ReportMapper.ToReport(answer.Report);
        return SarifLog.Of([SarifLog.Run(report, null, null, SarifRules.Of(_service.Services.GetRequiredService<EngineSource>().Current, report))]).ToJsonString();
    }

    private void Map(string name, Func<HttpContext, HttpRoute, MethodDescriptor, HttpCallContext, Task> answer)
    {
        var method = _descriptor.FindMethodByName(name);
        if (HttpRoute.Of(method) is not { } route)
        {
            return;
        }

        _verbs[route.Template] = _verbs.TryGetValue(route.Template, out var others) ? $"{others}, {route.Verb}" : route.Verb;
        _service.MapMethods(route.Template, [route.Verb], async http =>
        {
            var context = new HttpCallContext(http, $"/{_descriptor.FullName}/{name}");
            http.Response.Headers.CacheControl = "no-store";
            try
            {
                await answer(http, route, method, context).ConfigureAwait(false);
            }
            catch (RpcException error) when (!http.Response.HasStarted)
            {
                await Problem.Write(http.Response, CallProblem.Of(error, RequestInterceptor.IdOf(context), AskedLanguage.PatternsOf(context.GetHttpContext()))).ConfigureAwait(false);
            }
        });
    }

    private Task<HttpInput> Read<TRequest, TResponse>(HttpContext http, HttpRoute route, MethodDescriptor method, HttpCallContext context)
        where TRequest : class
        where TResponse : class =>
        Refusing<TRequest, TResponse, HttpInput>(
            async () => HttpInput.Read(http.Request, route, method.InputType, route.Body.Length > 0 ? await HttpBody.Read(http.Request).ConfigureAwait(false) : null), method, context);

    // What cannot be read is no call yet; it gets its id and its line in the log like one.
    private async Task<T> Refusing<TRequest, TResponse, T>(Func<Task<T>> read, MethodDescriptor method, HttpCallContext context)
        where TRequest : class
        where TResponse : class
    {
        try
        {
            return await read().ConfigureAwait(false);
        }
        catch (RpcException error)
        {
            await _requests.UnaryServerHandler<TRequest, TResponse>((TRequest)HttpInput.Empty(method.InputType), context, (_, _) => Task.FromException<TResponse>(error)).ConfigureAwait(false);
            throw;
        }
    }

    private static async Task Lines<TResponse>(HttpContext http, HttpCallContext context, Func<LineWriter<TResponse>, Task> call)
    {
        using var writer = new LineWriter<TResponse>(http.Response);
        try
        {
            await call(writer).ConfigureAwait(false);
            await writer.Finish().ConfigureAwait(false);
        }
        catch (RpcException error) when (http.Response.HasStarted)
        {
            await writer.Refuse(null, CallProblem.Of(error, RequestInterceptor.IdOf(context), AskedLanguage.PatternsOf(context.GetHttpContext()))).ConfigureAwait(false);
        }
    }
}
