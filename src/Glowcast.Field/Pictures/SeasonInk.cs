namespace Glowcast.Field.Pictures;

/// <summary>The inks of a season: told apart by their lightness alone, and by hatching and outline, so that a grey print and
/// any eye can read them.</summary>
internal static class SeasonInk
{
    public const double Small = 11;

    public static readonly Rgb Paper = Rgb.FromHex("#fbfaf6");
    public static readonly Rgb Ink = Rgb.FromHex("#141b26");
    public static readonly Texture Night = Texture.Plain("night", Rgb.FromHex("#aab1bd"));
    public static readonly Texture Twilight = Texture.Plain("twilight", Rgb.FromHex("#d5dae1"));
    public static readonly Texture SunUp = Texture.Plain("sun-up", Inks.White);
    public static readonly Texture RidgeLit = new("ridge-lit", 5, Rgb.FromHex("#fdf6e3"), Rgb.FromHex("#8a6a1f"), (x, y) => (x + y) % 5 == 0);
    public static readonly Texture Window = Texture.Plain("window", Rgb.FromHex("#f0b73d"));
    public static readonly Texture WindowEdge = Texture.Plain("window-edge", Ink);
    public static readonly Texture Weekend = Texture.Plain("weekend", Rgb.FromHex("#5b6573"));

    public static readonly Pen Rule = new(Weekend.Ground, 0.5, 1, 1, 3);
    public static readonly Pen MonthRule = new(Weekend.Ground, 0.6);
    public static readonly Pen ClockChange = new(Ink, 0.8, 1, 4, 3);
    public static readonly Pen RankLine = new(Ink, 0.5);
    public static readonly Pen LegendEdge = new(Ink, 0.8);
}
