using System.Globalization;
using System.Text;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Magnetism;
using NodaTime.Text;

namespace Glowcast.Field.Exports;

/// <summary>Every exposure of every set as comma-separated values (RFC 4180), in the order they are made.</summary>
internal static class FramesTable
{
    private static readonly InstantPattern Utc = InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.f'Z'");

    public static string Of(LightForecast forecast, PlannedSet set, Declination declination)
    {
        var text = new StringBuilder("set,frame,row,column,shot,spare,trueDeg,magneticDeg,pitchDeg,opensS,opensUtc\r\n");
        foreach (var exposure in set.Clock.Exposures)
        {
            var frame = set.Layout.FrameAt(exposure.Row, exposure.Column);
            var opens = forecast.Start is { } start ? Utc.Format(Rounded.ToTenths(start + exposure.Start)) : "";
            text.Append(
                CultureInfo.InvariantCulture,
                $"{exposure.Set + 1},{exposure.Frame + 1},{exposure.Row + 1},{exposure.Column + 1},{exposure.Shot + 1},{(frame.Spare ? 1 : 0)},{frame.Bearing.Degrees:0.000},{declination.Magnetic(frame.Bearing).Degrees:0.000},{frame.Pitch.Degrees:0.000},{exposure.Start.TotalSeconds:0.###},{opens}\r\n");
        }
        return text.ToString();
    }
}
