namespace Glowcast.Engine.Weather;

/// <summary>The five-character groups of a TEMP message (WMO-No. 306, Manual on Codes, FM 35; FMH-3, appendix E).</summary>
internal static class TempGroups
{
    /// <summary>TTTDD: temperature and dew point [°C]; null where it is no such group. The parity of the tenths gives the
    /// sign (table 3931), the depression is in tenths up to 5 °C and in whole degrees from there (table 0777).</summary>
    public static (double? TemperatureC, double? DewPointC)? Temperatures(string group)
    {
        if (group.Length != 5) return null;
        if (group.StartsWith("///", StringComparison.Ordinal)) return (null, null);
        if (Whole(group[..3]) is not { } tenths) return null;
        var temperatureC = (tenths % 2 == 0 ? tenths : -tenths) / 10.0;
        if (group.EndsWith("//", StringComparison.Ordinal)) return (temperatureC, null);
        return Whole(group[3..]) is { } code && DepressionC(code) is { } depressionC
            ? (temperatureC, Math.Round(temperatureC - depressionC, 1))
            : null;
    }

    /// <summary>dddff: direction to 5°, with the hundreds of the speed added to its last figure; null where it is no such
    /// group. The speed is in the unit of the message.</summary>
    public static (double? FromDeg, double? Speed)? Wind(string group)
    {
        if (group.Length != 5) return null;
        if (group == "/////") return (null, null);
        if (Whole(group) is not { } number) return null;
        var (direction, speed) = (number / 100, number % 100);
        var (fromDeg, hundreds) = (direction / 5 * 5, direction % 5);
        return fromDeg <= 360 ? (fromDeg, (100 * hundreds) + speed) : null;
    }

    /// <summary>hhh of a mandatory level [m]; null for missing figures.</summary>
    // The thousands are left out of the code and follow from where that surface lies.
    public static double? HeightM(int pressureHPa, string figures) => Whole(figures) is not { } code ? null : pressureHPa switch
    {
        1000 => code >= 500 ? 500 - code : code,
        925 => code,
        850 => code < 900 ? code + 1000 : code,
        700 => code >= 500 ? code + 2000 : code + 3000,
        500 or 400 => code * 10,
        300 or 250 => (code * 10) + (code < 500 ? 10_000 : 0),
        _ => (code * 10) + 10_000,
    };

    /// <summary>PPP of the levels up to 100 hPa: tens of figures below 100 stand for 1000 and more.</summary>
    public static double? PressureHPa(string figures) => Whole(figures) is { } code ? code < 100 ? 1000 + code : code : null;

    /// <summary>The mandatory level a code of two figures stands for; null for none.</summary>
    public static int? MandatoryHPa(string figures) => figures switch
    {
        "00" => 1000,
        "92" => 925,
        "85" => 850,
        "70" or "50" or "40" or "30" or "25" or "20" or "15" or "10" => 10 * Whole(figures),
        _ => null,
    };

    public static int? Whole(string figures)
    {
        var number = 0;
        foreach (var figure in figures)
        {
            if (!char.IsAsciiDigit(figure)) return null;
            number = (10 * number) + (figure - '0');
        }
        return number;
    }

    private static double? DepressionC(int code) => code switch
    {
        <= 50 => code / 10.0,
        >= 56 => code - 50,
        _ => null,
    };
}
