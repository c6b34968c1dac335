namespace Glowcast.Field.Pictures;

/// <summary>Paper, ink, and two tones of light: the colours of drawings on paper, the same as the page has by day.</summary>
internal static class Inks
{
    public static readonly Rgb Paper = Rgb.FromHex("#f6f1e5");
    public static readonly Rgb Ink = Rgb.FromHex("#22262b");
    public static readonly Rgb Quiet = Rgb.FromHex("#5d5a50");
    public static readonly Rgb Hatch = Rgb.FromHex("#cfc5b0");
    public static readonly Rgb Shade = Rgb.FromHex("#8799a8");
    public static readonly Rgb Lit = Rgb.FromHex("#f0b673");
    public static readonly Rgb LitPale = Rgb.FromHex("#f9e8c8");
    public static readonly Rgb LitDot = Rgb.FromHex("#b98a44");
    public static readonly Rgb Bar = Rgb.FromHex("#1c2732");
    public static readonly Rgb Missing = Rgb.FromHex("#a3211a");
    public static readonly Rgb White = new(255, 255, 255);
}
