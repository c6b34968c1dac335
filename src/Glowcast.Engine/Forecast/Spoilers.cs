using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>Says in plain sentences what can spoil a set (docs/model.md, Capture 10 to 15 and 18).</summary>
public static class Spoilers
{
    private const double NoticeablePx = 1;

    /// <param name="view">How far what the frames show is; null where no grid has been looked at.</param>
    public static IReadOnlyList<Spoiler> Of(PlannedSet set, RidgeInView? view = null)
    {
        ArgumentNullException.ThrowIfNull(set);
        return [Levelling(set.Layout), Roll(set.Layout), Parallax(set.Layout, view), Focus(set.Layout, view), Diffraction(set.Layout), .. Cloud(set, view)];
    }

    private static Spoiler Levelling(SetLayout layout)
    {
        var crop = layout.Levelling.WorstCropPx;
        var share = crop / layout.Clean.HeightPx * 100;
        return new Spoiler(
            SpoilerKind.Levelling, crop >= NoticeablePx, crop, null,
            $"An axis {Degrees(layout.Settings.LevelError)} out of the vertical costs up to {Pixels(crop)} of the height ({share:0.#} %) when the horizon is straightened.");
    }

    private static Spoiler Roll(SetLayout layout)
    {
        var roll = layout.Settings.LevelError;
        var lost = layout.Field.PixelsUp - layout.Levelling.HeightWithRollPx(roll);
        return new Spoiler(
            SpoilerKind.Roll, lost >= NoticeablePx, lost, null,
            $"A camera rolled by {Degrees(roll)} sets the frames like a stair and costs {Pixels(lost)} of the height: level the camera too, not only the tripod.");
    }

    private static Spoiler Parallax(SetLayout layout, RidgeInView? view)
    {
        var (parallax, offset) = (layout.Parallax, layout.Settings.PupilOffset);
        var free = parallax.FreeFrom;
        if (layout.ColumnsWithSpares == 1) return new Spoiler(SpoilerKind.Parallax, false, 0, null, "A single column is not turned: there is no parallax, and no rail is needed.");
        if (view?.NearestGround is not { } near)
        {
            return new Spoiler(
                SpoilerKind.Parallax, true, null, free.Metres,
                $"Turning {offset.Millimetres:0} mm beside the no-parallax point shifts things nearer than {Distance(free)} by more than a pixel; what is farther needs no rail.");
        }
        var shift = near > Length.Zero ? parallax.ShiftPx(near) : 0;
        if (view.ReachesTheFeet)
        {
            return new Spoiler(
                SpoilerKind.Parallax, !parallax.NoRailFor(near), shift, near.Metres,
                $"The frames look down to ground nearer than the grid knows ({Distance(near)}), which shifts by {shift:0.#} pixels and more from frame to frame: slide the camera to the no-parallax point, or look higher.");
        }
        return parallax.NoRailFor(near)
            ? new Spoiler(
                SpoilerKind.Parallax, false, shift, near.Metres,
                $"The nearest ground in the picture is {Distance(near)} away, and from {Distance(free)} on nothing shifts by a pixel: no rail is needed.")
            : new Spoiler(
                SpoilerKind.Parallax, true, shift, near.Metres,
                $"The nearest ground in the picture is {Distance(near)} away and shifts by {shift:0.#} pixels from frame to frame: bring the no-parallax point to within {offset.Millimetres / shift:0} mm of the axis with a rail.");
    }

    private static Spoiler Focus(SetLayout layout, RidgeInView? view)
    {
        var sharp = layout.Sharpness;
        var limits = $"Focused on the far ridge all is sharp to the pixel from {Distance(sharp.NearLimit)} on";
        if (view?.NearestGround is not { } near)
            return new Spoiler(SpoilerKind.Focus, true, null, sharp.NearLimit.Metres, $"{limits}; focused at {Distance(sharp.Hyperfocal)}, from half of that on.");
        return near >= sharp.NearLimit
            ? new Spoiler(SpoilerKind.Focus, false, null, near.Metres, $"{limits}, and the nearest ground in the picture is {Distance(near)} away: focus on the ridge.")
            : new Spoiler(
                SpoilerKind.Focus, true, null, near.Metres,
                $"{limits}, but the nearest ground in the picture is {Distance(near)} away: focus at {Distance(sharp.Hyperfocal)} for sharpness from {Distance(sharp.Hyperfocal * 0.5)} on, or let the foreground go soft.");
    }

    private static Spoiler Diffraction(SetLayout layout)
    {
        var (sharp, aperture) = (layout.Sharpness, layout.Lens.Aperture);
        var spread = $"At f/{aperture:0.#} the Airy disc is {sharp.AiryDiameterUm:0.#} µm wide, {sharp.AiryInPixels:0.#} pixels";
        return new Spoiler(
            SpoilerKind.Diffraction, sharp.Diffraction != Capture.Diffraction.Unseen, sharp.AiryInPixels, null, sharp.Diffraction switch
            {
                Capture.Diffraction.Strong => $"{spread}: diffraction softens the picture; open the aperture.",
                Capture.Diffraction.Noticeable => $"{spread}: diffraction is noticeable at full size; a stop wider is crisper where depth allows it.",
                _ => $"{spread}: diffraction is not seen.",
            });
    }

    private static IEnumerable<Spoiler> Cloud(PlannedSet set, RidgeInView? view)
    {
        var conditions = set.Plan.Conditions;
        if (conditions.CloudSpeedMs is not { } speed || (conditions.CloudDistance ?? view?.NearestDeck) is not { } distance) yield break;
        var moving = $"Cloud {Distance(distance)} away that moves at {speed:0.#} m/s drifts by";
        if (set.Layout.ColumnsWithSpares > 1)
            yield return Drift(SpoilerKind.CloudSideways, CloudDrift.Sideways(set.Layout, set.Clock, speed, distance), moving, "between neighbours in a row");
        if (set.Layout.Rows > 1)
            yield return Drift(SpoilerKind.CloudBetweenRows, CloudDrift.BetweenRows(set.Layout, set.Clock, speed, distance), moving, "between a frame and the one below it");

        Spoiler Drift(SpoilerKind what, CloudDrift drift, string start, string between) => new(
            what, drift.Effect != DriftEffect.Clean, drift.Pixels, distance.Metres, $"{start} {Pixels(drift.Pixels)} {between}: {InWords(drift.Effect)}");
    }

    private static string InWords(DriftEffect effect) => effect switch
    {
        DriftEffect.Clean => "nothing is seen.",
        DriftEffect.SeamCanBePlaced => "less than a tenth of what they share, so that a seam can be placed in soft cloud.",
        DriftEffect.Doubtful => "up to half of what they share, and it may be seen; be quicker, overlap more, or lay the seam along the ridge.",
        _ => "more than half of what they share, and the cloud will be there twice; be quicker, overlap more, or expose so long that it blurs.",
    };

    private static string Degrees(Angle angle) => $"{angle.Degrees:0.##}°";

    private static string Pixels(double pixels) => pixels >= 10 ? $"{pixels:0} pixels" : $"{pixels:0.#} pixels";

    private static string Distance(Length length) => length.Metres switch
    {
        >= 10_000 => $"{length.Kilometres:0} km",
        >= 1000 => $"{length.Kilometres:0.0} km",
        >= 10 => $"{length.Metres:0} m",
        _ => $"{length.Metres:0.0} m",
    };
}
