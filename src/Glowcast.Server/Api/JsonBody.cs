using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Microsoft.Net.Http.Headers;

namespace Glowcast.Server.Api;

/// <summary>Reads what a client sends as JSON.</summary>
internal static class JsonBody
{
    /// <exception cref="BadHttpRequestException">It does not call itself JSON in UTF-8, or is too large.</exception>
    public static async Task<byte[]> ReadJsonAsync(this HttpRequest request, CancellationToken cancel)
    {
        CheckType(request.ContentType);
        using var body = new MemoryStream();
        await request.Body.CopyToAsync(body, cancel);
        return body.ToArray();
    }

    /// <inheritdoc cref="ReadJsonAsync"/>
    /// <exception cref="Engine.Measures.BadInputException">It is not JSON.</exception>
    public static async Task<JsonDocument> ParseJsonAsync(this HttpRequest request, CancellationToken cancel) =>
        PlanText.Parse(await request.ReadJsonAsync(cancel), "body");

    /// <exception cref="BadHttpRequestException">It does not call itself JSON in UTF-8.</exception>
    public static void CheckType(string? contentType)
    {
        var type = MediaTypeHeaderValue.TryParse(contentType, out var parsed) ? parsed : null;
        if (type is null || !type.MediaType.Equals("application/json", StringComparison.OrdinalIgnoreCase))
            throw Refused(string.IsNullOrEmpty(contentType) ? "The request names no Content-Type; send application/json." : $"Send the body as application/json; got '{Shortened.To80(contentType)}'.");
        if (type.Charset.HasValue && !type.Charset.Equals("utf-8", StringComparison.OrdinalIgnoreCase))
            throw Refused($"Send the body in UTF-8, as JSON is; got charset '{Shortened.To80(type.Charset.Value!)}'.");
    }

    private static BadHttpRequestException Refused(string why) => new(why, StatusCodes.Status415UnsupportedMediaType);
}
