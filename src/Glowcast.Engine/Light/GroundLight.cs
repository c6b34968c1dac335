namespace Glowcast.Engine.Light;

/// <summary>The light that falls on a piece of ground [lx], by where it comes from.</summary>
/// <param name="DirectLux">The beam's: normal illuminance × share of the disc × max(0, n·s).</param>
/// <param name="SkyLux">The sky's: on open level ground × sky view.</param>
/// <param name="ReflectedLux">What the ground around sends back, into the part of the view that is not sky.</param>
/// <remarks>The beam's ground is Lambertian. Snow sends up to twice as much towards a low sun, rough rock and forest more back to where the light comes from.</remarks>
public readonly record struct GroundLight(double DirectLux, double SkyLux, double ReflectedLux = 0)
{
    /// <summary>The same ground in shade.</summary>
    public double ShadeLux => SkyLux + ReflectedLux;

    public double TotalLux => DirectLux + ShadeLux;

    /// <summary>By how much the direct part lifts it over the same ground in shade [stops]: log₂(1 + direct/shade).</summary>
    public double LiftStops => Math.Log2(1 + (DirectLux / ShadeLux));

    /// <param name="beamLux">On a surface that faces the light.</param>
    /// <param name="discShare">Of the disc above the horizon, 0 to 1.</param>
    /// <param name="cosIncidence">n·s; ground that faces away gets nothing, whatever its horizon says.</param>
    /// <param name="openSkyLux">Of the whole sky on open level ground.</param>
    /// <param name="skyView">0 to 1, weighed by the cosine to the ground (<see cref="Light.SkyView"/>).</param>
    /// <param name="aroundLux">What the ground around sends out on average, ρE (<see cref="SentBackLux"/>); it fills what is not sky.</param>
    public static GroundLight Of(double beamLux, double discShare, double cosIncidence, double openSkyLux, double skyView, double aroundLux = 0) =>
        new(beamLux * discShare * Math.Max(0, cosIncidence), openSkyLux * skyView, aroundLux * (1 - skyView));

    /// <summary>What the ground around sends back on average [lx]: ρ (B sin h × lit share + sky), ground level on the whole.</summary>
    /// <param name="litShare">Of the ground around, in the sun.</param>
    public static double SentBackLux(double reflectance, double beamLux, double sinSunAltitude, double litShare, double openSkyLux) =>
        reflectance * ((beamLux * Math.Max(0, sinSunAltitude) * litShare) + openSkyLux);

    /// <summary>The direct part [lx] that lifts this ground by so many stops over its shade: (2^stops − 1) × shade.</summary>
    public double DirectNeededLux(double stops) => (Math.Pow(2, stops) - 1) * ShadeLux;

    /// <summary>Of ground that sends it back evenly to all sides [cd/m²], ρE/π.</summary>
    public double LuminanceCd(double reflectance) => reflectance * TotalLux / Math.PI;

    /// <summary>The same ground in shade [cd/m²].</summary>
    public double ShadeLuminanceCd(double reflectance) => reflectance * ShadeLux / Math.PI;
}
