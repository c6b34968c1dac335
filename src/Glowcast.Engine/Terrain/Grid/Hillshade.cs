using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>A picture of a grid from above: how much light each pixel's ground would catch from one lamp in the north-west,
/// 45° high, as every shaded map has it. It says nothing of the sun.</summary>
/// <remarks>Slopes by the eight neighbours: B. K. P. Horn, "Hill shading and the reflectance map", Proc. IEEE 69 (1981) 14–47.
/// Where pixels are larger than cells, the neighbours stand a pixel apart.</remarks>
public sealed class Hillshade
{
    /// <summary>Of a pixel without ground, or beside a hole.</summary>
    public const byte NoGround = 0;

    // In cells: what lies nearer to a post stands on it.
    private const double Slack = 1e-6;

    private const double LampAzimuthRad = 315 * Math.PI / 180;
    private const double LampAltitudeRad = 45 * Math.PI / 180;

    private readonly ElevationGrid grid;
    private readonly byte[] shades;

    private Hillshade(ElevationGrid grid, int width, int height) =>
        (this.grid, Width, Height, shades) = (grid, width, height, new byte[width * height]);

    public int Width { get; }

    public int Height { get; }

    /// <summary>Row by row from the north, each from the west: 1 where the ground is turned away, 255 where it faces the lamp.</summary>
    public ReadOnlySpan<byte> Shades => shades;

    /// <param name="window">Pixels share its latitudes and its longitudes evenly.</param>
    /// <param name="width">Pixels across.</param>
    /// <param name="height">Pixels down.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static Hillshade Of(ElevationGrid grid, GeoWindow window, int width, int height, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        var picture = new Hillshade(grid, width, height);
        for (var row = 0; row < height; row++)
        {
            cancel.ThrowIfCancellationRequested();
            picture.Fill(row, window);
        }
        return picture;
    }

    private void Fill(int row, GeoWindow window)
    {
        var (latitudeStep, longitudeStep) = ((window.NorthDeg - window.SouthDeg) / Height, (window.EastDeg - window.WestDeg) / Width);
        var latitude = window.NorthDeg - ((row + 0.5) * latitudeStep);
        var apart = Apart(latitude, latitudeStep, longitudeStep);
        for (var column = 0; column < Width; column++)
        {
            var point = GeoPoint.FromDegrees(latitude, window.WestDeg + ((column + 0.5) * longitudeStep));
            if (grid.Contains(point)) shades[(row * Width) + column] = ShadeAt(point, apart);
        }
    }

    /// <summary>How far apart neighbours stand: in cells, and on the ground.</summary>
    private Neighbours Apart(double latitudeDeg, double latitudeStepDeg, double longitudeStepDeg)
    {
        var posts = grid.Posts;
        var sine = Math.Sin(double.DegreesToRadians(latitudeDeg));
        var northM = double.DegreesToRadians(1) * Wgs84.MeridianRadiusM(sine);
        var eastM = double.DegreesToRadians(1) * Wgs84.PrimeVerticalRadiusM(sine) * Math.Sqrt(1 - (sine * sine));
        var (columnM, rowM) = posts.Projection is null
            ? (posts.ColumnStep * eastM, posts.RowStep * northM)
            : (posts.ColumnStep, posts.RowStep);
        var (columns, rows) = (Math.Max(1, longitudeStepDeg * eastM / columnM), Math.Max(1, latitudeStepDeg * northM / rowM));
        return new Neighbours(columns, rows, columns * columnM, rows * rowM);
    }

    private byte ShadeAt(GeoPoint point, Neighbours apart)
    {
        var (x, y) = OnPost(grid.Posts.ToCells(point));
        var (left, right, up, down) = (x - apart.Columns, x + apart.Columns, y - apart.Rows, y + apart.Rows);
        if (left < 0 || up < 0 || right > grid.Posts.Columns - 1 || down > grid.Posts.Rows - 1) return NoGround;
        var (northWest, northEast, southWest, southEast) =
            (grid.HeightAtCells(left, up), grid.HeightAtCells(right, up), grid.HeightAtCells(left, down), grid.HeightAtCells(right, down));
        var eastward = (northEast + (2 * grid.HeightAtCells(right, y)) + southEast - northWest - (2 * grid.HeightAtCells(left, y)) - southWest) / (8 * apart.EastM);
        var northward = (northWest + (2 * grid.HeightAtCells(x, up)) + northEast - southWest - (2 * grid.HeightAtCells(x, down)) - southEast) / (8 * apart.NorthM);
        return double.IsNaN(eastward + northward + grid.HeightAtCells(x, y)) ? NoGround : Shade(eastward, northward);
    }

    // A hole beside a post must not darken it because of rounding.
    private static (double X, double Y) OnPost((double X, double Y) cells)
    {
        var (x, y) = (Math.Round(cells.X), Math.Round(cells.Y));
        return Math.Abs(cells.X - x) < Slack && Math.Abs(cells.Y - y) < Slack ? (x, y) : cells;
    }

    // The lamp's direction on the ground's normal, (−east, −north, 1); from 1, so that 0 is left for what has no ground.
    private static byte Shade(double eastward, double northward)
    {
        var (sine, cosine) = Math.SinCos(LampAltitudeRad);
        var facing = (sine - (cosine * ((eastward * Math.Sin(LampAzimuthRad)) + (northward * Math.Cos(LampAzimuthRad)))))
            / Math.Sqrt(1 + (eastward * eastward) + (northward * northward));
        return (byte)Math.Round(1 + (254 * Math.Max(0, facing)));
    }

    private readonly record struct Neighbours(double Columns, double Rows, double EastM, double NorthM);
}

/// <summary>A window on the map.</summary>
/// <param name="EastDeg">Greater than the western edge; it runs on past 180° across the date line.</param>
public readonly record struct GeoWindow(double NorthDeg, double SouthDeg, double WestDeg, double EastDeg);
