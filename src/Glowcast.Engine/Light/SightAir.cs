using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>Which part of the air before a ridge is in the sun at one moment: the rest lies in the shadow of the terrain.</summary>
/// <remarks>Sixteen equal sections of the sight line, each asked in its middle. Mutable, for one thread.</remarks>
internal sealed class SightAir(Place eye, SunOverGround ground, SightModel model, double seconds)
{
    private const int Sections = 16;

    /// <summary>Of the airlight that the path would give if all of it were sunlit, the share from sunlit sections.</summary>
    /// <param name="altitude">Apparent, of the far end.</param>
    public double SunlitShare(Azimuth bearing, Length distance, Angle altitude, Airlight air)
    {
        var line = new GroundLine(eye.Point, bearing);
        var (sunlit, all) = (0.0, 1 - air.Transmittance(distance));
        for (var section = 0; section < Sections; section++)
        {
            var (near, middle, far) = (At(section), At(section + 0.5), At(section + 1));
            if (IsSunlit(line.At(middle.Metres), middle)) sunlit += air.Transmittance(near) - air.Transmittance(far);
        }
        return all > 0 ? sunlit / all : 1;

        Length At(double section) => distance * (section / Sections);

        bool IsSunlit(GeoPoint point, Length along)
        {
            // The height of the line of sight: docs/model.md, T3, the other way round.
            var heightM = eye.Height.Metres + (along.Metres * Math.Tan(altitude.Radians + (along.Metres * model.DropPerMetre)));
            ground.StandAt(new Place(point, Length.FromMetres(heightM)));
            return ground.At(seconds).ClearanceRad > 0;
        }
    }
}
