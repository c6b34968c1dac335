using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;

namespace Glowcast.Engine.Tests.Light;

/// <summary>A scene that can be worked out by hand: a flat valley floor, a high ridge from north to south in the west, a
/// lower one in the east, and a lookout on the eastern one.</summary>
internal static class Valley
{
    public const int EastRidgeColumn = 700;
    public const int WestRidgeColumn = 500;
    public const double FloorM = 500;
    public const double EastCrestM = 1500;
    public const double WestCrestM = 2600;

    /// <summary>South-west corner 46° N 7° E; posts every 3″.</summary>
    public static ElevationGrid Grid { get; } = Grids.Square(46, 7, (_, column) => Math.Max(
        FloorM, Math.Max(WestCrestM - (100 * Math.Abs(column - WestRidgeColumn)), EastCrestM - (100 * Math.Abs(column - EastRidgeColumn)))));

    /// <summary>On the western slope just below the eastern crest, looking west.</summary>
    public static Place Lookout { get; } = Place.FromDegrees(46.5, 7 + ((EastRidgeColumn - 1) / 1200.0), EastCrestM - 100 + 1.7);

    public static BearingSpan West { get; } = BearingSpan.FromDegrees(250, 290);

    /// <summary>The picture ends below so that the slope under the lookout's feet is not in it.</summary>
    public static PictureBounds Picture { get; } = new(Angle.FromDegrees(-8), Angle.FromDegrees(10));

    public static Place WestCrest { get; } = Place.FromDegrees(46.5, 7 + (WestRidgeColumn / 1200.0), WestCrestM);

    public static Place Floor { get; } = Place.FromDegrees(46.5, 7 + (600 / 1200.0), FloorM);
}
