using Glowcast.Server.Answers;

namespace Glowcast.Cli.Showing;

/// <summary>How often a deck lay below a height, to be read.</summary>
internal static class StationPage
{
    public static void Write(Page page, StationAnswer answer)
    {
        page.Title($"A deck below {answer.TopM:0} m over station {answer.Station}, {answer.FromYear} to {answer.ToYear}");
        page.Table(
            [">month", ">hour UTC", ">by the sun", ">flights", ">below", ">share", ">95 %"],
            answer.Months.Select(month => (IReadOnlyList<string>)
            [
                $"{month.Month}", $"{month.Hour:00}", month.SolarHour is { } solar ? $"{solar:00.0}" : "", $"{month.Usable}", $"{month.Below}",
                month is { Enough: true, Share: { } share } ? Say.Share(share) : "too few", month.Enough ? $"{100 * month.Low:0}–{100 * month.High:0} %" : "",
            ]));
        page.Paragraph("Shares of all flights at that hour. Another valley can have another deck, and 00 and 12 UTC are dawn only at some longitudes.");
    }
}
