using System.Xml.Linq;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Field.Card;

/// <summary>When to be where.</summary>
internal static class TimesBlock
{
    public static XElement Of(CardTimes times, Clock clock)
    {
        (string Name, Instant? At, Duration? Uncertainty)[] rows =
        [
            ("leave", times.Leave, null),
            ("be on site", times.OnSite, null),
            ("level; rehearse", times.Rehearse, null),
            ("START", times.Start, null),
            ("sets done", times.SetEnds, null),
            ("earliest start", times.Earliest, times.EarliestUncertainty),
            ("latest start", times.Latest, times.LatestUncertainty),
            ("stop: light ends", times.Stop, times.StopUncertainty),
        ];
        return Markup.Section("times", "Times", Markup.Table(["", "", "±"], rows.Where(row => row.At is not null).Select<(string Name, Instant? At, Duration? Uncertainty), IReadOnlyList<string>>(
            row => [row.Name, clock.Time(row.At!.Value), row.Uncertainty is { } sure ? Say.Time(sure) : ""])));
    }
}
