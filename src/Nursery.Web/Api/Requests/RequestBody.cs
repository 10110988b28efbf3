using System.Net.Mime;
using System.Text.Json;
using System.Text.Unicode;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Net.Http.Headers;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Problems;

namespace Nursery.Web.Api.Requests;

/// <summary>Reads what a request carries, whole, up to 16 MB.</summary>
internal static class RequestBody
{
    private const int MaxBytes = 16 * 1024 * 1024;

    /// <summary>Up to here a body that is too long is still read and thrown away, so that its sender hears why it was refused.</summary>
    private const int MaxHeardBytes = 3 * MaxBytes;

    private static readonly object Key = new();

    /// <summary>The bytes; asked twice, they are read once.</summary>
    /// <exception cref="TooLarge">More than 16 MB.</exception>
    public static async Task<ReadOnlyMemory<byte>> ReadAsync(HttpContext context)
    {
        if (context.Items[Key] is ReadOnlyMemory<byte> known)
        {
            return known;
        }

        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = MaxHeardBytes;
        }

        using var bytes = new MemoryStream();
        var buffer = new byte[64 * 1024];
        var length = 0L;
        for (int read; (read = await context.Request.Body.ReadAsync(buffer, context.RequestAborted)) > 0; length += read)
        {
            if (length + read <= MaxBytes)
            {
                bytes.Write(buffer, 0, read);
            }
        }

        if (length > MaxBytes)
        {
            throw new ApiRefusal(
                StatusCodes.Status413PayloadTooLarge, nameof(TooLarge), $"The request has {length} bytes; at most {MaxBytes} (16 MB) are read",
                new FieldError("body", $"{length} bytes", $"at most {MaxBytes} bytes"));
        }

        ReadOnlyMemory<byte> body = bytes.ToArray();
        context.Items[Key] = body;
        return body;
    }

    public static async Task<ReadOnlyMemory<byte>> CsvAsync(HttpContext context)
    {
        MustBe(context, MediaTypeNames.Text.Csv);
        return await ReadAsync(context);
    }

    /// <summary>The object the body holds.</summary>
    /// <param name="context">The request.</param>
    /// <param name="emptyIsObject">An empty body is an object without members.</param>
    public static async Task<JsonFields> JsonAsync(HttpContext context, bool emptyIsObject = false)
    {
        var body = await ReadAsync(context);
        if (body.IsEmpty && emptyIsObject)
        {
            body = "{}"u8.ToArray();
        }
        else
        {
            MustBe(context, MediaTypeNames.Application.Json);
        }

        if (!Utf8.IsValid(body.Span))
        {
            throw new Malformed("The body is not UTF-8", [new FieldError("body", null, "JSON in UTF-8")]);
        }

        try
        {
            using var document = JsonDocument.Parse(body, new JsonDocumentOptions { AllowDuplicateProperties = false });
            return JsonFields.OfBody(document.RootElement.Clone());
        }
        catch (JsonException failure)
        {
            throw new Malformed(
                $"The body is not JSON, or names a member twice: line {failure.LineNumber + 1}, byte {failure.BytePositionInLine}",
                [new FieldError("body", Start(body), "JSON that names each member once")]);
        }
    }

    private static void MustBe(HttpContext context, string type)
    {
        var sent = context.Request.ContentType;
        if (!MediaTypeHeaderValue.TryParse(sent, out var media)
            || !media.MediaType.Equals(type, StringComparison.OrdinalIgnoreCase))
        {
            throw new ApiRefusal(
                StatusCodes.Status415UnsupportedMediaType, "UnsupportedContent", $"This address reads {type}",
                new FieldError("Content-Type", sent, type));
        }

        var charset = HeaderUtilities.RemoveQuotes(media.Charset);
        if (charset.HasValue && !charset.Equals("utf-8", StringComparison.OrdinalIgnoreCase))
        {
            throw new Malformed("Only UTF-8 is read", [new FieldError("Content-Type", sent, $"{type}; charset=utf-8")]);
        }
    }

    private static string Start(ReadOnlyMemory<byte> body) =>
        System.Text.Encoding.UTF8.GetString(body.Span[..Math.Min(body.Length, 400)]);
}
