using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>How a ray counts the posts of a grid: in steps along the axis that is nearer to its direction (major), with
/// whatever lies across (minor).</summary>
/// <param name="ByRows">Whether a step leads from row to row, else from column to column.</param>
/// <param name="Forward">+1 or −1: the way the indices run as one goes outwards.</param>
internal readonly record struct RayAxes(int Rows, int Columns, bool ByRows, int Forward)
{
    public int Majors => ByRows ? Rows : Columns;

    public int Minors => ByRows ? Columns : Rows;

    public int MajorStride => ByRows ? Columns : 1;

    public int MinorStride => ByRows ? 1 : Columns;

    public static RayAxes For(GridPosts posts, Azimuth azimuth)
    {
        var (x, y) = ((posts.Columns - 1) / 2.0, (posts.Rows - 1) / 2.0);
        var path = Aimed(posts, azimuth, x, y);
        var end = path.At(posts.CellSize.Metres);
        var (dx, dy) = (end.X - x, end.Y - y);
        var byRows = Math.Abs(dy) >= Math.Abs(dx);
        return new RayAxes(posts.Rows, posts.Columns, byRows, (byRows ? dy : dx) < 0 ? -1 : 1);
    }

    /// <summary>The geodesic that sets out from a place in the grid at a true azimuth.</summary>
    public static CellPath Aimed(GridPosts posts, Azimuth azimuth, double x, double y)
    {
        var from = posts.ToPoint(x, y);
        var path = new CellPath(posts);
        path.Aim(from.Latitude.Radians, from.Longitude.Radians, azimuth.Radians);
        return path;
    }

    public double MajorOf(Cell cell) => ByRows ? cell.Y : cell.X;

    public double MinorOf(Cell cell) => ByRows ? cell.X : cell.Y;

    public Cell ToCell(double major, double minor) => ByRows ? new Cell(minor, major) : new Cell(major, minor);
}
