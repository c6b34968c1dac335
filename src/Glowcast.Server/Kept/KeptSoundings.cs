using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Server.Store;

namespace Glowcast.Server.Kept;

/// <summary>The soundings that this service keeps, which plans may name by their ids.</summary>
internal sealed class KeptSoundings(IDocuments documents)
{
    /// <summary>Finds the sounding that a plan names, if it names one.</summary>
    public async Task<NamedSounding> NamedInAsync(JsonElement plan, CancellationToken cancel) =>
        new(NameIn(plan) is { } id && await documents.FindAsync(DocumentKind.Soundings.Path, id, cancel) is { } kept ? JsonElement.Parse(kept.Json).GetString() : null);

    private static string? NameIn(JsonElement plan) =>
        plan.ValueKind == JsonValueKind.Object && plan.TryGetProperty("conditions", out var conditions)
        && conditions.ValueKind == JsonValueKind.Object && conditions.TryGetProperty("sounding", out var sounding)
        && sounding.ValueKind == JsonValueKind.String && DocumentBody.IsId(sounding.GetString()!)
            ? sounding.GetString()
            : null;
}

/// <param name="Text">Of the kept sounding that a plan names; null where it names none, or one that is not kept.</param>
internal sealed record NamedSounding(string? Text)
{
    private const string Field = "conditions.sounding";

    /// <summary>The profile of this sounding, or of the text that a plan holds itself.</summary>
    /// <param name="given">What the plan says: an id or a text. No text of a sounding could be an id.</param>
    /// <exception cref="BadInputException">None of this id is kept, or its text cannot be read.</exception>
    public Profile Read(string given)
    {
        if (!DocumentBody.IsId(given)) return Profile.Read(given, Field);
        return Profile.Read(Text ?? throw new BadInputException(Field, $"'{given}' is not a sounding kept here; put it at /api/soundings/{given}, or give its text."), Field);
    }
}
