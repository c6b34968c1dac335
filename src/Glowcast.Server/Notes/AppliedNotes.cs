using System.Text.Json;
using Glowcast.Server.Answers;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Notes;

/// <summary>The windows of a forecast, moved by what field notes have shown its moments to be off.</summary>
/// <param name="FirstLight">By how much starts were moved; null where no note tells.</param>
/// <param name="LastLight">By how much ends were moved.</param>
public sealed record AppliedNotesAnswer(string Forecast, AppliedBias? FirstLight, AppliedBias? LastLight, IReadOnlyList<MovedWindow> Windows)
{
    /// <param name="forecast">As it was answered.</param>
    /// <param name="notes">Of all lookouts.</param>
    internal static AppliedNotesAnswer Of(string address, JsonElement forecast, IReadOnlyList<FieldNote> notes)
    {
        var lookout = forecast.GetProperty("lookout");
        var place = FieldNote.PlaceOf(lookout.GetProperty("latitudeDeg").GetDouble(), lookout.GetProperty("longitudeDeg").GetDouble());
        var here = SeenAgainstForecast.Of([.. notes.Where(note => FieldNote.PlaceOf(note.LatitudeDeg, note.LongitudeDeg) == place)]);
        var everywhere = SeenAgainstForecast.Of(notes);
        var (first, last) = (AppliedBias.Of(here.FirstLightS, everywhere.FirstLightS), AppliedBias.Of(here.LastLightS, everywhere.LastLightS));
        return new AppliedNotesAnswer(address, first, last, [.. forecast.GetProperty("windows").EnumerateArray().Select(window => MovedWindow.Of(window, first, last))]);
    }
}

/// <param name="OfLookout">From notes of the forecast's own lookout; else from those of all.</param>
/// <param name="MovedByS">The bias: positive where the light comes or goes later than forecast.</param>
/// <param name="SpreadS">Of single notes about it, one standard deviation; null for one alone.</param>
/// <param name="IsSure">Three notes or more, and farther from zero than twice its own uncertainty.</param>
public sealed record AppliedBias(bool OfLookout, int Notes, double MovedByS, double? SpreadS, bool IsSure)
{
    private const int Enough = 3;
    private const double NotChance = 2;

    internal static AppliedBias? Of(Deviation? lookout, Deviation? everywhere)
    {
        var isOfLookout = lookout is { Count: >= Enough } || everywhere is null;
        return (isOfLookout ? lookout : everywhere) is { } bias
            ? new AppliedBias(isOfLookout, bias.Count, bias.Bias, bias.Spread, bias.Count >= Enough && Math.Abs(bias.Bias) > NotChance * bias.Spread!.Value / Math.Sqrt(bias.Count))
            : null;
    }
}

/// <param name="Start">As forecast.</param>
/// <param name="MovedStart">With the bias.</param>
public sealed record MovedWindow(string Start, string End, string MovedStart, string MovedEnd)
{
    private const string ByRidgeLit = "ridgeLit";
    private const string ByRidgeShaded = "ridgeShaded";

    internal static MovedWindow Of(JsonElement window, AppliedBias? first, AppliedBias? last)
    {
        var (start, end) = (Text("start"), Text("end"));
        return new MovedWindow(
            start, end, Text("startCause") == ByRidgeLit ? Moved(start, first) : start, Text("endCause") == ByRidgeShaded ? Moved(end, last) : end);

        string Text(string name) => window.GetProperty(name).GetString()!;
    }

    private static string Moved(string moment, AppliedBias? bias) =>
        bias is null ? moment : Moments.Utc(InstantPattern.ExtendedIso.Parse(moment).Value + Duration.FromSeconds(bias.MovedByS));
}
