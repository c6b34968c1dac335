using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Glowcast.Server.Answers;

/// <summary>How answers are written: the same from the command line and the service.</summary>
public static class AnswerJson
{
    public static JsonSerializerOptions Options { get; } = Configure(new JsonSerializerOptions());

    /// <summary>Names in camel case, enumerations as words, nulls written out, so that a field that must exist does.</summary>
    public static JsonSerializerOptions Configure(JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.PropertyNamingPolicy = JsonNamingPolicy.CamelCase;
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase));
        options.DefaultIgnoreCondition = JsonIgnoreCondition.Never;
        // Answers are data, served as JSON; degrees and dashes may stand as they are.
        options.Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
        return options;
    }

    public static string Write<T>(T answer) => JsonSerializer.Serialize(answer, Options);
}
