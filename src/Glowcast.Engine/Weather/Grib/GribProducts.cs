using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>Reads sections 1 and 4 into what a field is of.</summary>
internal static class GribProducts
{
    private const int NoTime = int.MinValue;

    /// <summary>Years in which weather models have run, and some to come.</summary>
    private const int FirstYear = 1900;
    private const int LastYear = 2200;
    private const double MostHours = 24 * 366 * 30;

    /// <exception cref="GribDamage">The date cannot be.</exception>
    public static Instant ReferenceTime(Octets identification) => Time(identification, 13, "It is dated");

    /// <exception cref="GribDamage">The section is damaged, or of a template that is not read.</exception>
    public static GribProduct Read(Octets product, int centre, int discipline, Instant reference)
    {
        var template = product.U16(8);
        var endsAt = EndOctet(template);
        var start = reference + Offset(product.U8(18), product.S32(19));
        var end = endsAt == NoTime ? start : Time(product, endsAt, "Its interval ends at");
        if (end < start) throw new GribDamage("Its interval ends before it begins.");
        return new GribProduct(centre, discipline, product.U8(10), product.U8(11), template, GribLevel.Of(product), reference, start, end)
        {
            Member = template is 1 or 11 ? product.U8(36) : null,
            IsOfManyRuns = template is 2 or 5 or 6 or 9 or 10 or 12,
            Process = endsAt == NoTime ? null : product.U8(endsAt + 12),
        };
    }

    /// <summary>Where the end of an interval stands, by template.</summary>
    private static int EndOctet(int template) => template switch
    {
        0 or 1 or 2 or 5 or 6 or 7 or 15 => NoTime,
        8 => 35,
        9 => 48,
        10 => 36,
        11 => 38,
        12 => 37,
        _ => throw new GribDamage($"It is described by product template 4.{template}, which is not read; 4.0, 4.1, 4.2, 4.5 to 4.12 and 4.15 are."),
    };

    private static Duration Offset(int unit, int count)
    {
        var hours = count * (unit switch
        {
            0 => 1.0 / 60,
            1 => 1,
            2 => 24,
            10 => 3,
            11 => 6,
            12 => 12,
            13 => 1.0 / 3600,
            _ => throw new GribDamage($"Its forecast time is counted in unit {unit} of code table 4.4, which is not read; seconds, minutes, hours and days are."),
        });
        return Math.Abs(hours) <= MostHours ? Duration.FromSeconds(Math.Round(hours * 3600)) : throw new GribDamage($"Its forecast time of {hours:0} h cannot be.");
    }

    private static Instant Time(Octets section, int octet, string where)
    {
        var (year, month, day, hour, minute, second) = (section.U16(octet), section.U8(octet + 2), section.U8(octet + 3), section.U8(octet + 4), section.U8(octet + 5), section.U8(octet + 6));
        var isTime = year is >= FirstYear and <= LastYear && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month) && hour <= 24 && minute <= 59 && second <= 60;
        return isTime
            ? Instant.FromUtc(year, month, day, 0, 0) + Duration.FromSeconds((3600 * hour) + (60 * minute) + second)
            : throw new GribDamage($"{where} {year}-{month:00}-{day:00} {hour:00}:{minute:00}:{second:00}, which is no date.");
    }
}
