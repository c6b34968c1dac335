using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Reads section 3 into a grid.</summary>
internal static class GribGrids
{
    private const string Instead = "Take the same fields on a regular grid (latitude and longitude, Lambert or Gaussian): services offer one beside it, or interpolate to it when asked.";

    /// <exception cref="GribDamage">The section is damaged, or of a kind that is refused.</exception>
    public static GribGrid Read(byte[] section)
    {
        var grid = new Octets(section);
        if (grid.U8(6) != 0) throw new GribDamage($"Its grid is given by source {grid.U8(6)}, and not in the file. {Instead}");
        var (template, points) = (grid.U16(13), grid.U32(7));
        if (template is not (0 or 1 or 10 or 20 or 30 or 40)) throw new GribDamage($"Its grid, {Named(template)}, is not read. {Instead}");
        var (columns, rows) = (grid.U32(31), grid.U32(35));
        if (columns == uint.MaxValue || rows == uint.MaxValue || grid.U8(11) != 0) throw new GribDamage($"Its grid is a reduced one, with fewer points in rows near the poles, and not read. {Instead}");
        if (columns == 0 || rows == 0 || (ulong)columns * rows != points || points > int.MaxValue)
            throw new GribDamage($"Its grid of {columns} × {rows} points is said to have {points} points; both must be the same, and not 0.");
        var order = new ScanOrder(grid.U8(template switch { 0 or 1 or 40 => 72, 10 => 60, _ => 65 }), (int)columns, (int)rows);
        if ((order.Flags & 0x0F) != 0) throw new GribDamage($"Its scan mode {order.Flags} shifts rows by half a step, and is not read. {Instead}");
        return template switch
        {
            10 => Mercator(grid, order, section),
            20 => Polar(grid, order, section),
            30 => Lambert(grid, order, section),
            _ => LatLon(grid, order, section, template),
        };
    }

    private static LatLonGrid LatLon(Octets grid, ScanOrder order, byte[] section, int template)
    {
        var unit = UnitDeg(grid);
        (double Lat, double Lon) first = (Latitude(unit * grid.S32(47)), unit * grid.S32(51)), last = (Latitude(unit * grid.S32(56)), unit * grid.S32(60));
        var rows = template == 40 ? GaussianRows.Between((int)Math.Min(grid.U32(68), int.MaxValue), first.Lat, last.Lat, order.Nj) : null;
        return new LatLonGrid(template, order, section, first, last, rows, template == 1 ? Pole(grid, unit) : null, WindsAlongGrid(grid.U8(55)));
    }

    private static MovedPole Pole(Octets grid, double unit)
    {
        if (grid.F32(81) != 0) throw new GribDamage($"Its grid is turned by {grid.F32(81)}° about its moved pole; only an angle of 0 is read. {Instead}");
        return new MovedPole(Latitude(unit * grid.S32(73)), unit * grid.S32(77));
    }

    private static ConformalGrid Mercator(Octets grid, ScanOrder order, byte[] section)
    {
        if (grid.U32(61) is not (0 or uint.MaxValue)) throw new GribDamage($"Its Mercator grid is turned; only one along the equator is read. {Instead}");
        var first = First(grid);
        var cone = Cone.Mercator(EarthShape.Of(grid), Latitude(Micro(grid, 48)), Micro(grid, 43));
        return new ConformalGrid(10, order, section, cone, first, (grid.U32(65) / 1e3, grid.U32(69) / 1e3), WindsAlongGrid(grid.U8(47)));
    }

    private static ConformalGrid Polar(Octets grid, ScanOrder order, byte[] section)
    {
        var isSouth = (grid.U8(64) & 0x80) != 0;
        var trueLat = Math.Abs(Latitude(Micro(grid, 48)));
        if (trueLat < 1e-6) throw new GribDamage("Its polar map is true to scale at the equator, which cannot be.");
        var cone = Cone.Polar(EarthShape.Of(grid), isSouth ? -trueLat : trueLat, Micro(grid, 52));
        return new ConformalGrid(20, order, section, cone, First(grid), (grid.U32(56) / 1e3, grid.U32(60) / 1e3), WindsAlongGrid(grid.U8(47)));
    }

    private static ConformalGrid Lambert(Octets grid, ScanOrder order, byte[] section)
    {
        var cone = Cone.Lambert(EarthShape.Of(grid), Latitude(Micro(grid, 66)), Latitude(Micro(grid, 70)), Micro(grid, 52));
        return new ConformalGrid(30, order, section, cone, First(grid), (grid.U32(56) / 1e3, grid.U32(60) / 1e3), WindsAlongGrid(grid.U8(47)));
    }

    private static GeoPoint First(Octets grid) => GeoPoint.FromDegrees(Latitude(Micro(grid, 39)), Micro(grid, 43));

    private static double Micro(Octets grid, int octet) => grid.S32(octet) / 1e6;

    /// <summary>Angles are millionths of a degree, unless a basic angle is given.</summary>
    private static double UnitDeg(Octets grid)
    {
        var (angle, parts) = (grid.U32(39), grid.U32(43));
        return angle is 0 or uint.MaxValue || parts is 0 or uint.MaxValue ? 1e-6 : (double)angle / parts;
    }

    private static double Latitude(double degrees) =>
        Math.Abs(degrees) <= 90 + 1e-9 ? Math.Clamp(degrees, -90, 90) : throw new GribDamage($"Its grid names a latitude of {degrees:0.######}°.");

    private static bool WindsAlongGrid(byte flags) => (flags & 0x08) != 0;

    private static string Named(int template) => template switch
    {
        2 or 3 or 41 or 42 or 43 => $"a stretched or rotated one (3.{template})",
        50 or 51 or 52 or 53 => $"of spherical harmonics (3.{template})",
        100 => "an icosahedral one (3.100)",
        101 => "an unstructured, icosahedral one (3.101)",
        90 => "a view from space (3.90)",
        32769 => "a rotated Arakawa grid of local template 3.32769",
        _ => $"of template 3.{template}",
    };
}
