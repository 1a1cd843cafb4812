using FoamRules.Model;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace FoamRules.Pages.Site;

/// <summary>A form that was sent: its fields and files, within limits, and shown to come from a page of this site.</summary>
public static class PostedForm
{
    /// <summary>The most that a form may carry, in bytes.</summary>
    public const int MaxBytes = 4 * 1024 * 1024;

    /// <summary>The most fields that a form may have.</summary>
    private const int MaxFields = 2000;

    /// <summary>Reads a form; what is wrong is said in the words of the page.</summary>
    /// <param name="http">The request.</param>
    /// <param name="words">The words.</param>
    /// <returns>The form, or null with what is wrong and the status code.</returns>
    public static async Task<(IFormCollection? Form, Violation? Problem, int Status)> Read(HttpContext http, PageWords words)
    {
        if (http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } body)
        {
            body.MaxRequestBodySize = MaxBytes + (64 * 1024);
        }

        try
        {
            var form = await http.Request.ReadFormAsync(new FormOptions { ValueLengthLimit = MaxBytes, MultipartBodyLengthLimit = MaxBytes, ValueCountLimit = MaxFields, BufferBodyLengthLimit = MaxBytes * 2 }, http.RequestAborted).ConfigureAwait(false);
            var antiforgery = (IAntiforgery)http.RequestServices.GetService(typeof(IAntiforgery))!;
            return await antiforgery.IsRequestValidAsync(http).ConfigureAwait(false)
                ? (form, null, StatusCodes.Status200OK)
                : (null, new Violation("", words["form-old"], words["form-old-allowed"], words["form-old-remedy"]), StatusCodes.Status400BadRequest);
        }
        catch (Exception error) when (error is BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge } or InvalidDataException)
        {
            return (null, new Violation("", words["form-large"], words["form-large-allowed", ("megabytes", $"{MaxBytes / 1024 / 1024}")], words["form-large-remedy"]), StatusCodes.Status413PayloadTooLarge);
        }
        catch (Exception error) when (error is BadHttpRequestException or InvalidOperationException)
        {
            return (null, new Violation("", words["form-none"], words["form-none-allowed"], words["form-old-remedy"]), StatusCodes.Status400BadRequest);
        }
    }
}
