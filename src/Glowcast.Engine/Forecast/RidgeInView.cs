using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>How far what the frames of a set show is.</summary>
/// <param name="Ridge">Median distance of the skyline's ridge; null where no ridge is visible.</param>
/// <param name="NearestGround">The nearest visible ground inside the frames; null where they show none. Ground nearer than
/// <paramref name="KnownFrom"/> the grid does not know.</param>
/// <param name="NearestDeck">The nearest visible top of the cloud inside the frames; null without any.</param>
public sealed record RidgeInView(Length? Ridge, Length? NearestGround, Length? NearestDeck, Length KnownFrom)
{
    public static RidgeInView Of(SetLayout layout, Scene scene, Length? deckTop)
    {
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(scene);
        return new RidgeInView(
            MedianCrest(scene), Nearest(layout, scene, _ => true),
            deckTop is { } top ? Nearest(layout, scene, heightM => heightM <= top.Metres + DeckSurface.ToleranceM) : null,
            scene.Grid.Posts.CellSize);
    }

    /// <summary>The frames look down to ground nearer than the grid knows.</summary>
    public bool ReachesTheFeet => NearestGround is { } ground && ground <= KnownFrom * 1.01;

    private static Length? MedianCrest(Scene scene)
    {
        var crest = scene.Patches.Where(patch => patch.Role == PatchRole.Crest).GroupBy(patch => patch.Column)
            .Select(column => column.MaxBy(patch => patch.Top).Distance).Order().ToList();
        return crest.Count > 0 ? crest[crest.Count / 2] : null;
    }

    private static Length? Nearest(SetLayout layout, Scene scene, Func<double, bool> isWanted)
    {
        Length? nearest = null;
        foreach (var column in scene.View.Columns)
        {
            foreach (var sample in column.Samples)
            {
                if (nearest is { } best && sample.DistanceM >= best.Metres) break;
                if (!isWanted(sample.HeightM) || !layout.Covers(column.Bearing, Angle.FromRadians(sample.AltitudeRad))) continue;
                nearest = Length.FromMetres(sample.DistanceM);
                break;
            }
        }
        return nearest;
    }
}
