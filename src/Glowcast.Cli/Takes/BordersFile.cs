using System.Text.Json;
using Glowcast.Cli.Asking;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;

namespace Glowcast.Cli.Takes;

/// <summary>The borders a user moved, in a small JSON file that the contact sheet saves and a later run reads.</summary>
internal static class BordersFile
{
    private const int MostBytes = 4_000_000;
    private const string NoBorders = "Is no file of borders, as the contact sheet saves them";

    private static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = System.Text.Json.Serialization.JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
    };

    /// <param name="field">Where the user named it.</param>
    /// <exception cref="BadInputException">It cannot be read, or is not what a contact sheet saves.</exception>
    public static HandBorders Read(string path, string field) => Of(Bytes(path, field), field);

    /// <inheritdoc cref="Read"/>
    public static HandBorders Of(byte[] bytes, string field)
    {
        using var json = PlanText.Parse(bytes, field);
        try
        {
            if (json.Deserialize<Borders>(Strict) is not { } read) return HandBorders.None;
            // A list's own type does not keep null out of it.
            if (read.Sets.Contains(null!) || read.Loose.Contains(null!)) throw new BadInputException(field, $"{NoBorders}: there is a null in a list of it.");
            return new HandBorders([.. read.Sets.Select(set => (set.First, set.Last))], read.Loose.ToHashSet(StringComparer.Ordinal));
        }
        catch (JsonException broken)
        {
            var where = broken.Path is { Length: > 2 } within ? Shortened.To80(within[2..]) : "it";
            throw new BadInputException(field, $"{NoBorders}: {where} is not known, of the wrong kind, or lacks a field it needs.");
        }
    }

    private static byte[] Bytes(string path, string field)
    {
        var faults = new Faults();
        using var file = InputFile.Open(path, field, "a file of borders", faults);
        faults.ThrowIfAny();
        if (file!.Length > MostBytes) throw new BadInputException(field, $"Is larger than {MostBytes} bytes; it is no file of borders.");
        var bytes = new byte[file.Length];
        file.ReadExactly(bytes);
        return bytes;
    }

    private sealed record Borders(IReadOnlyList<HandSet> Sets, IReadOnlyList<string> Loose);

    private sealed record HandSet(string First, string Last);
}
