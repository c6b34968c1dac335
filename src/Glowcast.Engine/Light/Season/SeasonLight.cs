using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The light of one day of a season, for laying a set over it.</summary>
/// <param name="Span">Times are seconds after the first look at the sun.</param>
/// <param name="Lit">When each member of the ground is lit.</param>
/// <param name="Windows">Of the day.</param>
internal sealed record SeasonLight(
    LocalDate Date, Scene Scene, SeasonGround Ground, SeasonSun Sun, SpanLight Span, IReadOnlyList<Stretch>[] Lit, IReadOnlyList<Stretch> Windows)
{
    // Of the ground that crosses nearest to a moment, as many are asked as by a forecast.
    private const int Asked = 15;

    // Longer than a table's moment is off.
    private const double ApartS = 45;

    private readonly Lazy<SunTrack> track = new(() => SunTrack.Of(new Interval(Sun.At(0), Sun.At(Sun.LengthS)), Sun.EarthFixedAu));

    public Instant At(double seconds) => Sun.At(seconds);

    public double SecondsAt(Instant instant) => (instant - Sun.At(0)).TotalSeconds;

    public DayHalf HalfOf(Stretch window) => AzimuthDegAt((window.StartS + window.EndS) / 2) < 180 ? DayHalf.Morning : DayHalf.Evening;

    /// <summary>The sun's way around a stretch of the day.</summary>
    public SunTrack TrackOver(Stretch stretch)
    {
        var startS = Math.Max(0, stretch.StartS);
        return SunTrack.Of(new Interval(At(startS), At(Math.Min(Sun.LengthS, stretch.EndS))), seconds => Sun.EarthFixedAu(startS + seconds));
    }

    /// <summary>How sure a moment is at which the light of the ridge, or of the valley, changes.</summary>
    public EdgeConfidence ConfidenceAt(double seconds, bool isRidge)
    {
        var nearest = (
            from member in isRidge ? Ground.CrestColumns.SelectMany(column => column) : Ground.Valley
            from stretch in Lit[member]
            from edge in new[] { stretch.StartS, stretch.EndS }
            where edge > 0 && edge < Sun.LengthS
            orderby Math.Abs(edge - seconds)
            select (Member: member, Seconds: edge)).Take(Asked);
        var ground = new SunOverGround(track.Value, Scene.Grid, Scene.Model);
        var beam = Ground.BeamDoubtOver(track.Value);
        return EdgeConfidence.Of([.. nearest.Select(crossing => DoubtOf(crossing.Member, crossing.Seconds))], new SightLines(Scene.Grid, Scene.Model), Scene.DeckTop);

        (Place Ground, Azimuth Sun, TimingUncertainty Uncertainty) DoubtOf(int member, double atS)
        {
            var place = Ground.Patch(member).Ground;
            // In the sun before and after: what changes then is how the beam lights it.
            if (Ground.IsInSun(member, Sun, atS - ApartS) && Ground.IsInSun(member, Sun, atS + ApartS))
                return (place, Azimuth.FromRadians(beam.AzimuthRad(atS, place)), beam.At(atS, place, Ground.Facing(member)));
            ground.StandAt(place);
            var crossing = new HorizonCrossing(atS, ground.At(atS));
            return (place, Azimuth.FromRadians(crossing.Sun!.Value.AzimuthRad), beam.Beside(TimingUncertainty.At(crossing, ground, place.Height), atS, place, Ground.Facing(member)));
        }
    }

    /// <summary>Whether the crest can be told from the sky behind it, without the light that ground around sends back; null without crest.</summary>
    public RidgeInAir? RidgeInAirAt(double seconds, RidgeLight ridge, Length visibility, Surfaces surfaces)
    {
        var (air, body) = (Airlight.Under(ridge.DiffuseLux, visibility), Sun.EarthFixedAu(seconds));
        return RidgeInAir.Of(Ground.CrestColumns.SelectMany(column => column).Select(member =>
        {
            var (patch, facing) = (Ground.Patch(member), Ground.Facing(member));
            var cos = facing.Normal.CosTo(GroundFacing.ApparentSun(patch.Ground, body));
            var light = GroundLight.Of(ridge.DirectLux, Ground.IsInSun(member, Sun, seconds) ? 1 : 0, cos, ridge.DiffuseLux, facing.SkyView);
            return (patch.Weight, air.Contrast(light.LuminanceCd(surfaces.Of(patch, Scene.IsDeck(patch))), patch.Distance));
        }));
    }

    private double AzimuthDegAt(double seconds) =>
        Sky.SkyVector.Sighted(new Sky.ObserverFrame(Scene.Lookout).Toward(Sun.EarthFixedAu(seconds))).Azimuth.Degrees;
}
