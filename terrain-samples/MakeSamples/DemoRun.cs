namespace MakeSamples;

/// <summary>Invented weather over the invented island: fog in the valley under an inversion, and a band of broken cloud that drifts through the morning sun's beam.</summary>
internal static class DemoRun
{
    private const double NorthDeg = 47.5;
    private const double WestDeg = -33;
    private const double StepDeg = 0.5;
    private const int Rows = 8;
    private const int Columns = 19;

    private static readonly int[] Hours = [0, 3, 6, 9, 12];

    /// <summary>Pressure [hPa], height [m] of the standard atmosphere, temperature [K], relative humidity [%].</summary>
    private static readonly (int HPa, double HeightM, double Kelvin, double Humidity)[] Levels =
    [
        (1000, 111, 281.5, 90), (975, 323, 280.2, 93), (950, 540, 278.8, 97), (925, 762, 277.4, 100), (900, 988, 276.0, 100), (875, 1220, 281.5, 35), (850, 1457, 280.4, 30),
        (825, 1700, 279.0, 28), (800, 1949, 277.5, 26), (775, 2204, 275.9, 25), (750, 2466, 274.2, 25), (725, 2735, 272.5, 25), (700, 3012, 270.7, 25), (600, 4206, 263.1, 30),
        (500, 5574, 254.2, 60), (400, 7185, 243.7, 30), (300, 9164, 230.9, 20),
    ];

    /// <returns>How many fields were written.</returns>
    public static int Write(string path)
    {
        using var file = File.Create(path);
        var fields = Hours.SelectMany(FieldsAt).ToList();
        foreach (var field in fields) file.Write(field);
        return fields.Count;
    }

    private static IEnumerable<byte[]> FieldsAt(int hour)
    {
        yield return Field(hour, (3, 5), 1, 0, (_, _) => 450);
        yield return Field(hour, (3, 0), 1, 0, (_, _) => 96_050);
        yield return Field(hour, (0, 0), 103, 2, (_, _) => 279.3);
        yield return Field(hour, (1, 1), 103, 2, (_, _) => 98);
        yield return Field(hour, (2, 2), 103, 10, (_, _) => 1);
        yield return Field(hour, (2, 3), 103, 10, (_, _) => -1);
        foreach (var level in Levels)
        {
            yield return Field(hour, (0, 0), 100, 100 * level.HPa, (_, _) => level.Kelvin);
            yield return Field(hour, (1, 1), 100, 100 * level.HPa, (_, _) => level.Humidity);
            yield return Field(hour, (3, 5), 100, 100 * level.HPa, (_, _) => level.HeightM);
            yield return Field(hour, (6, 22), 100, 100 * level.HPa, (_, east) => CoverPercent(level.HPa, east, hour));
        }
    }

    private static double CoverPercent(int hPa, double eastDeg, int hour) => hPa switch
    {
        925 or 900 => 100,
        500 => Math.Abs(eastDeg - (-31 + (hour / 12.0))) is var off && off < 1 ? Math.Round(95 * (1 - off)) : 0,
        _ => 0,
    };

    private static byte[] Field(int hour, (byte Category, byte Number) parameter, byte levelType, int level, Func<double, double, double> value)
    {
        var values = (from row in Enumerable.Range(0, Rows)
                      from column in Enumerable.Range(0, Columns)
                      select value(NorthDeg - (row * StepDeg), WestDeg + (column * StepDeg))).ToList();
        return GribMessage.Write(new GribHeader(parameter, levelType, level, hour, Rows, Columns, NorthDeg, WestDeg, StepDeg), values);
    }
}
