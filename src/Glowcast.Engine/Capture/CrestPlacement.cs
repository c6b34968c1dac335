using Glowcast.Engine.Measures;
using MathNet.Numerics.RootFinding;

namespace Glowcast.Engine.Capture;

/// <summary>Finds the pitch of the rows that puts the crest where it is wanted in the print.</summary>
/// <remarks>docs/model.md, Capture eq. 28.</remarks>
internal static class CrestPlacement
{
    private const double ToleranceRad = 1e-10;

    /// <summary>The centre pitch for which the crest stands at a share of the clean rectangle's height.</summary>
    /// <param name="picture">Its centre pitch is not used.</param>
    /// <param name="crest">The crest's apparent altitude.</param>
    /// <param name="share">Of the height, from the bottom: 0.5 in the middle, 0.67 a third from the top.</param>
    /// <exception cref="ArgumentException">The share lies outside (0, 1), or the rows cannot be shot even level.</exception>
    public static Angle CentrePitch(Camera camera, Lens lens, SetSettings settings, Picture picture, Angle crest, double share)
    {
        if (!(share is > 0 and < 1)) throw new ArgumentOutOfRangeException(nameof(share), share, "The crest stands at a share of the height between 0 and 1.");
        var level = new SetLayout(camera, lens, settings, new Picture(picture.Centre, picture.Horizontal, picture.Vertical, Angle.Zero));
        double Miss(double pitchRad) => ShareAt(level, Angle.FromRadians(pitchRad), crest) - share;
        // Pitched all the way down the crest nears the top of the rectangle, all the way up its bottom: a root lies between.
        var room = (Math.PI / 2) - (level.Up.Covered.Radians / 2) - ToleranceRad;
        return Angle.FromRadians(Brent.FindRoot(Miss, -room, room, ToleranceRad));
    }

    /// <summary>Where a crest stands in a clean rectangle: 0 at its bottom, 1 at its top.</summary>
    public static double Share(CleanRectangle clean, Angle crest) => (crest.Tan() - clean.Bottom.Tan()) / (clean.Top.Tan() - clean.Bottom.Tan());

    private static double ShareAt(SetLayout level, Angle pitch, Angle crest) =>
        Share(CleanRectangle.Trimmed(level.Field, level.Across, SetLayout.RowPitches(level.Field, level.Up, pitch)), crest);
}
