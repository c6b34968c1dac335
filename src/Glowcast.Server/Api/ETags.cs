using System.Security.Cryptography;
using System.Text.Json;
using Glowcast.Server.Answers;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;

namespace Glowcast.Server.Api;

/// <summary>Answers with an entity tag made of what they hold: a client that has them already is told 304, "not modified".</summary>
internal static class ETags
{
    public const string JsonType = "application/json; charset=utf-8";

    /// <summary>What may have changed when the client asks again.</summary>
    public static FileContentHttpResult Json<T>(T answer) => Bytes(JsonSerializer.SerializeToUtf8Bytes(answer, AnswerJson.Options), JsonType);

    /// <inheritdoc cref="Json{T}"/>
    public static FileContentHttpResult Bytes(byte[] content, string type) => TypedResults.Bytes(content, type, entityTag: TagOf(content));

    /// <summary>What never changes under its address.</summary>
    /// <param name="tag">Of this form of it.</param>
    public static FileContentHttpResult Forever(HttpContext context, byte[] content, string type, string tag)
    {
        context.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
        return TypedResults.Bytes(content, type, entityTag: new EntityTagHeaderValue($"\"{tag}\""));
    }

    /// <summary>What has just been kept, with the tag to change it by.</summary>
    /// <param name="location">Of what is new; null for what was there before.</param>
    public static IResult Kept<T>(HttpContext context, T answer, string? location)
    {
        context.Response.Headers.ETag = TagOf(answer).ToString();
        return location is null ? TypedResults.Ok(answer) : TypedResults.Created(location, answer);
    }

    public static EntityTagHeaderValue TagOf<T>(T answer) => TagOf(JsonSerializer.SerializeToUtf8Bytes(answer, AnswerJson.Options));

    private static EntityTagHeaderValue TagOf(byte[] content) => new($"\"{Convert.ToHexStringLower(SHA256.HashData(content).AsSpan(0, 16))}\"");
}
