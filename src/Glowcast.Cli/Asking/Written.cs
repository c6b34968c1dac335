using System.Globalization;
using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Asking;

/// <summary>Values as they are written on a command line.</summary>
internal static partial class Written
{
    /// <summary>Any number, NaN and infinities too: what they are good for is for the asker to say.</summary>
    /// <exception cref="BadInputException">Not a number.</exception>
    public static double Number(string text, string field) =>
        NumberOrNone(text) ?? throw new BadInputException(field, $"Must be a number such as 46.5; got '{Shortened.To80(text)}'.");

    /// <exception cref="BadInputException">Not a bearing.</exception>
    public static Azimuth Bearing(string text, string field) => Number(text, field) is var degrees && double.IsFinite(degrees)
        ? Azimuth.FromDegrees(degrees)
        : throw new BadInputException(field, $"Must be a true bearing in degrees such as 245; got '{Shortened.To80(text)}'.");

    /// <summary>Two bearings as 245..330, clockwise.</summary>
    /// <exception cref="BadInputException">Not two bearings, or twice the same.</exception>
    public static BearingSpan Span(string text, string field)
    {
        var match = TwoBearings().Match(text);
        if (!match.Success) throw new BadInputException(field, $"Must be two true bearings, clockwise, such as 245..330; got '{Shortened.To80(text)}'.");
        var (from, to) = (Bearing(match.Groups["from"].Value, field), Bearing(match.Groups["to"].Value, field));
        if (from == to) throw new BadInputException(field, $"Must be wider than zero and less than a full circle; both ends of '{Shortened.To80(text)}' are {from}.");
        return new BearingSpan(from, to);
    }

    /// <summary>A latitude and a longitude as 44.25,-71.2.</summary>
    /// <exception cref="BadInputException">Not two numbers, or off the earth.</exception>
    public static GeoPoint Point(string text, string field)
    {
        var parts = text.Split(',');
        if (parts.Length != 2) throw new BadInputException(field, $"Must be latitude,longitude in degrees such as 44.2592,-71.2025; got '{Shortened.To80(text)}'.");
        var faults = new Faults();
        var latitude = faults.InRange(Number(parts[0], $"{field} (latitude)"), $"{field} (latitude)", -90, 90);
        var longitude = faults.InRange(Number(parts[1], $"{field} (longitude)"), $"{field} (longitude)", -180, 180);
        faults.ThrowIfAny();
        return GeoPoint.FromDegrees(latitude, longitude);
    }

    /// <summary>What stands past a grid's edge.</summary>
    /// <exception cref="BadInputException">Neither 'edge' nor 'none' nor a height.</exception>
    public static PastEdge Beyond(string text, string field)
    {
        if (text == "edge") return PastEdge.AsTheEdge;
        if (text == "none") return PastEdge.Nothing;
        if (NumberOrNone(text) is >= -500 and <= 9000 and var metres) return Length.FromMetres(metres);
        throw new BadInputException(field, $"Must be 'edge', 'none', or the height in metres of a smooth earth, from -500 to 9000; got '{Shortened.To80(text)}'.");
    }

    private static double? NumberOrNone(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : null;

    [GeneratedRegex(@"^(?<from>[+-]?\d+(\.\d+)?)\.\.(?<to>[+-]?\d+(\.\d+)?)$", RegexOptions.CultureInvariant)]
    private static partial Regex TwoBearings();
}
