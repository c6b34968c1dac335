namespace Glowcast.Engine.Measures;

/// <summary>A point on the WGS84 ellipsoid: geodetic latitude in [−90°, 90°], longitude in [−180°, 180°).</summary>
/// <remarks>The default value is 0° N 0° E.</remarks>
public readonly record struct GeoPoint
{
    private GeoPoint(double latitudeDeg, double longitudeDeg) => (LatitudeDeg, LongitudeDeg) = (latitudeDeg, longitudeDeg);

    public double LatitudeDeg { get; }

    public double LongitudeDeg { get; }

    public Angle Latitude => Angle.FromDegrees(LatitudeDeg);

    public Angle Longitude => Angle.FromDegrees(LongitudeDeg);

    /// <summary>Longitudes are wrapped; latitudes are not.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The latitude lies beyond a pole, or a value is not finite.</exception>
    public static GeoPoint FromDegrees(double latitude, double longitude)
    {
        if (!(Math.Abs(latitude) <= 90))
            throw new ArgumentOutOfRangeException(nameof(latitude), latitude, "A latitude must lie between -90 and 90 degrees.");
        Finite.Required(longitude);
        // A value in range is kept to the last bit; only others are wrapped.
        var wrapped = longitude is >= -180 and < 180 ? longitude : longitude - (360 * Math.Floor((longitude + 180) / 360));
        return new GeoPoint(latitude, wrapped);
    }

    public override string ToString() => $"{LatitudeDeg:0.#######}, {LongitudeDeg:0.#######}";
}
