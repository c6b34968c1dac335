using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Server.Answers;
using Glowcast.Server.Notes;

namespace Glowcast.Server.Forecasts;

/// <summary>A forecast is a pure function of its plan, the sounding and the grids that this names, what field notes say, and the program; so the hash of these is its address.</summary>
internal static class ForecastAddress
{
    private static readonly string Program = $"{typeof(Forecaster).Module.ModuleVersionId:N}{typeof(ForecastAddress).Module.ModuleVersionId:N}";

    /// <param name="plan">However it was spaced.</param>
    /// <param name="sounding">The text of the kept sounding that the plan names; null for none.</param>
    /// <param name="grids">The fingerprints of its grids.</param>
    public static string Of(JsonElement plan, string? sounding, IEnumerable<string> grids, FieldNotesAnswer? notes)
    {
        var inputs = string.Join('\n', [Program, JsonSerializer.Serialize(plan), JsonSerializer.Serialize(sounding), .. grids, JsonSerializer.Serialize(notes, AnswerJson.Options)]);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(inputs)));
    }
}
