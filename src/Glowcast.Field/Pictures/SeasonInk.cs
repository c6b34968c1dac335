namespace Glowcast.Field.Pictures;

/// <summary>The inks of a season: told apart by their lightness alone, and by hatching and outline, so that a grey print and
/// any eye can read them.</summary>
internal static class SeasonInk
{
    public const string Paper = "fill:#fbfaf6";
    public const string Night = "fill:#aab1bd";
    public const string Twilight = "fill:#d5dae1";
    public const string SunUp = "fill:#ffffff";
    public const string RidgeLit = "fill:url(#hatch)";
    public const string Window = "fill:#f0b73d";
    public const string WindowOutline = "fill:none;stroke:#141b26;stroke-width:2.4;stroke-linejoin:round";
    public const string Weekend = "fill:#5b6573";
    public const string Rule = "stroke:#5b6573;stroke-width:.5;stroke-dasharray:1 3";
    public const string MonthRule = "stroke:#5b6573;stroke-width:.6";
    public const string ClockChange = "stroke:#141b26;stroke-width:.8;stroke-dasharray:4 3";
    public const string RankLine = "stroke:#141b26;stroke-width:.5";
    public const string Rank = "font-size:11px;font-weight:bold";
    public const string Small = "font-size:11px";
    public const string Heading = "font-size:14px;font-weight:bold";
    public const string Hatch = "stroke:#8a6a1f;stroke-width:1.1";
    public const string HatchGround = "fill:#fdf6e3";
}
