using System.Xml.Linq;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Magnetism;
using Glowcast.Field.Words;

namespace Glowcast.Field.Card;

/// <summary>Where the sweep begins and ends, by true and by magnetic bearing.</summary>
internal static class BearingsBlock
{
    public static XElement Of(PlannedSet set, Declination declination)
    {
        var order = set.Clock.Exposures.Where(exposure => exposure is { Set: 0, Shot: 0 }).ToList();
        var row = order.FindAll(exposure => exposure.Row == order[0].Row);
        return Markup.Section(
            "bearings", "Bearings of the first row",
            Markup.Table(["", "true", "compass"], [Row("first frame", row[0].Column), Row("last frame", row[^1].Column)]),
            Markup.Element("p", Words(declination)));

        IReadOnlyList<string> Row(string name, int column)
        {
            var bearing = set.Layout.FrameAt(order[0].Row, column).Bearing;
            return [name, Say.Bearing(bearing), declination.Compass == CompassUse.Useless ? "none" : Say.Bearing(declination.Magnetic(bearing))];
        }
    }

    private static string Words(Declination declination)
    {
        var angle = $"Declination {Math.Abs(declination.Angle.Degrees):0.0}° {(declination.Angle < Angle.Zero ? "west" : "east")}";
        if (declination.Uncertainty is not { } uncertainty) return $"{angle}, as given by hand.";
        var warning = declination.Compass switch
        {
            CompassUse.Useless => " So near a magnetic pole a compass is of no use.",
            CompassUse.Doubtful => " So near a magnetic pole a compass is doubtful.",
            _ => "",
        };
        return $"{angle} ± {uncertainty.Degrees:0.0}° on {Say.Iso(declination.Date)} (World Magnetic Model 2025; keep the compass off metal).{warning}";
    }
}
