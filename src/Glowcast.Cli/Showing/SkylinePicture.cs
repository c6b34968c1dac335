using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Showing;

/// <summary>A small picture of a skyline: bearings across, apparent altitude up, the heights stretched to be seen.</summary>
internal static class SkylinePicture
{
    private const int Rows = 10;
    private const int LabelCharacters = 9;
    private const int RoomForLastLabel = 5;
    private const double LeastDeg = 0.5;

    /// <param name="isAscii">Plain characters; else half blocks, which show twice as much.</param>
    public static void Write(Page page, ElevationGrid grid, SightModel model, VisibleSurface view, bool isAscii)
    {
        var axis = new BearingAxis(view.Span, page.Terminal.Width - LabelCharacters - RoomForLastLabel);
        var seen = VisibleSurface.From(grid, model, view.Eye, view.Span, axis.Characters);
        var tops = seen.Columns.Select(column => column.Skyline is { } top ? double.RadiansToDegrees(top.AltitudeRad) : (double?)null).ToList();
        if (tops.Max() is not { } highest) return;
        var lowest = tops.Min()!.Value;
        var rowDeg = Math.Max(LeastDeg, highest - lowest) / (Rows - 1);
        page.Line("");
        for (var row = 0; row < Rows; row++)
        {
            // The last row lies below the lowest skyline, so that all of it stands on something.
            var bottom = highest - ((row + 1) * rowDeg);
            var cells = tops.Select(top => Cell((top - bottom) / rowDeg, isAscii));
            page.Line($"{Label(row, highest - (row * rowDeg)),LabelCharacters - 2} |{string.Concat(cells)}");
        }
        var (marks, labels) = axis.Ruler();
        page.Line(new string(' ', LabelCharacters) + marks);
        page.Line(new string(' ', LabelCharacters) + labels);
    }

    private static string Label(int row, double topDeg) => row % 3 == 0 ? $"{topDeg:0.0}°" : "";

    /// <param name="filled">How much of the cell is ground, from its bottom; above 1 all of it.</param>
    private static char Cell(double? filled, bool isAscii) => filled switch
    {
        >= 0.75 => isAscii ? '#' : '█',
        >= 0.25 => isAscii ? '.' : '▄',
        _ => ' ',
    };
}
