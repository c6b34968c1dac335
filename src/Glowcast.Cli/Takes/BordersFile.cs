using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;

namespace Glowcast.Cli.Takes;

/// <summary>The borders a user moved, in a small JSON file that the contact sheet saves and a later run reads.</summary>
internal static class BordersFile
{
    private const int MostBytes = 4_000_000;

    private static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = System.Text.Json.Serialization.JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
    };

    /// <param name="field">Where the user named it.</param>
    /// <exception cref="BadInputException">It cannot be read, or is not what a contact sheet saves.</exception>
    public static HandBorders Read(string path, string field)
    {
        try
        {
            if (new FileInfo(path).Length > MostBytes) throw new BadInputException(field, $"Is larger than {MostBytes} bytes; it is no file of borders.");
            var read = JsonSerializer.Deserialize<Borders>(File.ReadAllText(path), Strict);
            return read is null
                ? HandBorders.None
                : new HandBorders([.. read.Sets.Select(set => (set.First, set.Last))], read.Loose.ToHashSet(StringComparer.Ordinal));
        }
        catch (JsonException broken)
        {
            throw new BadInputException(field, $"Is no file of borders, as the contact sheet saves them: {broken.Message}");
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            throw new BadInputException(field, $"Cannot be read: {unreadable.Message}");
        }
    }

    private sealed record Borders(IReadOnlyList<HandSet> Sets, IReadOnlyList<string> Loose);

    private sealed record HandSet(string First, string Last);
}
