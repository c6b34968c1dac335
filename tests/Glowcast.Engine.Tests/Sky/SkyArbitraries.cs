using FsCheck;
using FsCheck.Fluent;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Tests.Sky;

/// <summary>Any legal place and instant, poles and polar circles more often than chance would have them.</summary>
public static class SkyArbitraries
{
    public static Arbitrary<Place> Places()
    {
        var latitudes = Gen.OneOf(
            Gen.Choose(-90_000, 90_000).Select(thousandths => thousandths / 1000.0),
            Gen.Choose(60_000, 72_000).Select(thousandths => thousandths / 1000.0),
            Gen.Elements(-90.0, 90.0, 89.999, -89.999, 0.0));
        var places =
            from latitude in latitudes
            from longitude in Gen.Choose(-180_000, 180_000)
            from heightM in Gen.Choose(-400, 9000)
            select Place.FromDegrees(latitude, longitude / 1000.0, heightM);
        return places.ToArbitrary();
    }

    /// <summary>From 1950 to the end of 2100, to the second.</summary>
    public static Arbitrary<Instant> Instants()
    {
        var instants =
            from day in Gen.Choose(0, 55_151)
            from second in Gen.Choose(0, 86_399)
            select Instant.FromUtc(1950, 1, 1, 0, 0) + Duration.FromDays(day) + Duration.FromSeconds(second);
        return instants.ToArbitrary();
    }
}
