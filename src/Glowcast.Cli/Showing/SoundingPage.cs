using Glowcast.Engine.Weather;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Showing;

/// <summary>What a sounding tells of a sea of cloud, to be read.</summary>
internal static class SoundingPage
{
    public static void Write(Page page, SoundingAnswer answer, Sounding sounding)
    {
        page.Title($"A sea of cloud: {LikelihoodWord(answer.Likelihood)}");
        page.Facts((IEnumerable<(string, string?)>)
        [
            ("sounding", From(sounding)),
            ("ground", $"{answer.Surface.HeightM:0} m: {answer.Surface.TemperatureC:0.0} °C, dew point {answer.Surface.DewPointC:0.0} °C{(answer.Surface.LowWindKt is { } wind ? $", mean wind of the lowest 300 m {wind:0} kt" : "")}"),
            .. answer.Decks.Select(deck => ("deck", (string?)$"{deck.Kind.ToString().ToLowerInvariant()} from {deck.BaseM:0} m, its top at {Top(deck)}")),
            ("deck", answer.Decks.Count == 0 ? "none in this profile" : null),
            ("lookout", answer.Lookout?.Sentence),
            ("burn-off", answer.BurnOff?.Sentence),
        ]);

        ProfilePicture.Write(page, answer);
        page.Heading("Why");
        page.List(answer.Reasons);
        if (answer.Inversions.Count > 0)
        {
            page.Heading("Inversions");
            page.Table([">base", ">top", ">warmer by", "type", "made by"], answer.Inversions.Select(Row));
        }
        if (answer.Gaps.Count + answer.Cleaned.Count > 0)
        {
            page.Heading("What the profile does not show");
            page.List([.. answer.Gaps, .. answer.Cleaned]);
        }
        page.Heading("Take care");
        page.List(answer.Cautions);
    }

    public static string LikelihoodWord(Likelihood likelihood) => likelihood switch
    {
        Likelihood.High => "likely",
        Likelihood.Moderate => "moderately likely",
        Likelihood.Low => "not very likely",
        _ => "unlikely",
    };

    public static string Top(DeckAnswer deck) => deck.TopLowM == deck.TopHighM ? $"{deck.TopHighM:0} m" : $"{deck.TopLowM:0} to {deck.TopHighM:0} m";

    private static string From(Sounding sounding) => $"{sounding.Format}, station {sounding.Station ?? "not named"}, {When(sounding)}";

    private static string When(Sounding sounding) => sounding switch
    {
        { At: { } at } => $"{Say.Iso(at.InUtc().Date)}, {new Clock(at.InUtc().Date, null).Short(at)} UTC",
        { DayAndHour: { } day } => $"day {day.Day}, {day.Hour:00}:00 UTC",
        _ => "no date",
    };

    private static IReadOnlyList<string> Row(InversionAnswer inversion) =>
    [
        $"{inversion.BaseM:0} m", $"{inversion.TopM:0} m", $"{inversion.StrengthC:0.0} °C", inversion.Type.ToString().ToLowerInvariant(), inversion.Origin switch
        {
            InversionOrigin.Ground => "cooling at the ground",
            InversionOrigin.Subsidence => "sinking air",
            InversionOrigin.Frontal => "a front or moist warm air",
            _ => "not told by the profile",
        },
    ];
}
