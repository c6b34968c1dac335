using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Where a station stands, as reports write it.</summary>
internal static class StationPlace
{
    /// <summary>Null where the figures are no place on earth: reports write −99.99 for unknown ones.</summary>
    public static GeoPoint? Of(double? latitudeDeg, double? longitudeDeg) =>
        latitudeDeg is >= -90 and <= 90 and not -99.99 && longitudeDeg is >= -180 and <= 360 and not -99.99
            ? GeoPoint.FromDegrees(latitudeDeg.Value, longitudeDeg.Value)
            : null;
}
