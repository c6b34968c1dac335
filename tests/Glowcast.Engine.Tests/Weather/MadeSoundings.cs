namespace Glowcast.Engine.Tests.Weather;

/// <summary>One invented flight, a valley fog under a strong inversion, in every format that is read.</summary>
internal static class MadeSoundings
{
    /// <summary>Station 11999 is nobody's. Fog from 450 m to 729.4 m, where temperature and dew point part by 2 °C; inversion 650–900 m, 6.0 °C.</summary>
    public const string Listing = """
        11999 Hochtal Observations at 06Z 14 Feb 2026

        -----------------------------------------------------------------------------
           PRES   HGHT   TEMP   DWPT   RELH   MIXR   DRCT   SKNT   THTA   THTE   THTV
            hPa     m      C      C      %    g/kg    deg   knot     K      K      K
        -----------------------------------------------------------------------------
         1000.0    128
          962.0    450   -2.0   -2.2     99   3.36    140      4  274.2  283.9  274.8
          950.0    550   -2.6   -2.8     99   3.26                274.6  284.0  275.2
          938.0    650   -3.2   -3.4     99   3.15    150      5  275.0  284.1  275.5
          908.9    900    2.8   -6.2     52   2.63    200      8  283.6  291.5  284.0
          850.0   1450    1.0  -14.0     32   1.52    250     15  287.2  292.0  287.4
          700.0   2975   -8.0  -25.0     24   0.72    270     25  293.6  296.1  293.7
        </PRE>
        """;

    public const string NewerListing = """
        Observations for Station 11999 at 06 UTC 14 Feb 2026
        -----------------------------------------------------------------------------
           PRES   HGHT   TEMP   DWPT   RELH   MIXR   DRCT   SPED   THTA   THTE   THTV
            hPa     m      C      C      %    g/kg    deg    m/s     K      K      K
        -----------------------------------------------------------------------------
          962.0    450   -2.0   -2.2     99   3.36    140    2.0  274.2  283.9  274.8
          938.0    650   -3.2   -3.4     99   3.15    150    2.5  275.0  284.1  275.5
          908.9    900    2.8   -6.2     52   2.63    200    4.0  283.6  291.5  284.0
          850.0   1450    1.0  -14.0     32   1.52    250    7.5  287.2  292.0  287.4

        Station information and sounding indices
                               Station latitude: 47.20
                              Station longitude: 9.60
        """;

    public const string UniversityCsv = """
        time,longitude,latitude,pressure_hPa,geopotential height_m,temperature_C,dew point temperature_C,ice point temperature_C,relative humidity_%,humidity wrt ice_%,mixing ratio_g/kg,wind direction_degree,wind speed_m/s
        2026-02-14 05:04:00,9.6000,47.2000, 962.0,  450, -2.0, -2.2, -2.0, 99,100, 3.36,140, 2.0
        2026-02-14 05:04:20,9.6000,47.2000, 938.0,  650, -3.2, -3.4, -3.0, 99,101, 3.15,150, 2.5
        2026-02-14 05:05:10,-99.9900,-99.9900, 908.9,  900,  2.8, -6.2, -5.5, 52, 54, 2.63,200, 4.0
        2026-02-14 05:07:10,9.6000,47.2000, 850.0,     ,  1.0,-14.0,-12.5, 32, 36, 1.52,250, 7.5
        """;

    public const string PlainCsv = """
        # a station's own table
        pressure_hpa;height_m;temp_c;dewpoint_c;wind_dir_deg;wind_speed_kmh
        962;450;-2,0;-2,2;140;7,4
        938;650;-3,2;-3,4;150;9,3
        908,9;900;2,8;-6,2;200;14,8
        850;1450;1,0;-14,0;250;27,8
        """;

    public const string TableBetweenMarks = """
        %TITLE%
         HTL   260214/0600

           LEVEL       HGHT       TEMP       DWPT       WDIR       WSPD
        -------------------------------------------------------------------
        %RAW%
         962.00,    450.00,     -2.00,     -2.20,    140.00,      4.00
         950.00,    550.00,     -2.60,     -2.80,  -9999.00,  -9999.00
         938.00,    650.00,     -3.20,     -3.40,    150.00,      5.00
         908.90,    900.00,      2.80,     -6.20,    200.00,      8.00
         850.00,   1450.00,      1.00,    -14.00,    250.00,     15.00
        %END%
        """;

    public const string ProfileJson = """
        {"station": "HTL", "valid": "2026-02-14T06:00:00Z", "profile": [
          {"pres": 962.0, "hght": 450.0, "tmpc": -2.0, "dwpc": -2.2, "drct": 140.0, "sknt": 4.0},
          {"pres": 950.0, "hght": 550.0, "tmpc": -2.6, "dwpc": -2.8, "drct": NaN, "sknt": NaN},
          {"pres": 938.0, "hght": 650.0, "tmpc": -3.2, "dwpc": -3.4, "drct": 150.0, "sknt": 5.0},
          {"pres": 908.9, "hght": 900.0, "tmpc": 2.8, "dwpc": -6.2, "drct": 200.0, "sknt": 8.0},
          {"pres": 850.0, "hght": 1450.0, "tmpc": 1.0, "dwpc": -14.0, "drct": 250.0, "sknt": 15.0}]}
        """;

    /// <summary>Day 14, 06 UTC, knots, winds up to 700 hPa.</summary>
    public const string Temp = """
        TTAA 64067 11999 99962 02102 14004 00128 ///// ///// 92763 00542 17506 85450 01065
        25015 70975 08167 27025 88999 77999=
        TTBB 6406/ 11999 00962 02102 11938 03302 22909 02859 33850 01065 44700 08167
        21212 00962 14004 11938 15005 22909 20008=
        """;

    public static readonly (string Name, string Text)[] All =
    [
        (nameof(Listing), Listing), (nameof(NewerListing), NewerListing), (nameof(UniversityCsv), UniversityCsv), (nameof(PlainCsv), PlainCsv),
        (nameof(TableBetweenMarks), TableBetweenMarks), (nameof(ProfileJson), ProfileJson), (nameof(Temp), Temp),
    ];

    public static string Of(string name) => Array.Find(All, made => made.Name == name).Text;
}
