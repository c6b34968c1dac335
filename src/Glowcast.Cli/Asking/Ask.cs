using System.CommandLine;
using Glowcast.Server;

namespace Glowcast.Cli.Asking;

/// <summary>The options that commands share. All are taken as text, so that one reader finds every fault and words it.</summary>
internal static class Ask
{
    public static Option<string[]> For(string name, string value, string description, params string[] otherNames) => new(name, otherNames)
    {
        HelpName = value,
        Description = description,
        Arity = ArgumentArity.ZeroOrMore,
    };

    public static Option<string[]> Latitude() => For("--latitude", "degrees", "Of the place; south is negative.");

    public static Option<string[]> Longitude() => For("--longitude", "degrees", "Of the place; west is negative.");

    public static Option<string[]> TimeZone() => For("--time-zone", "name", "Such as Europe/Zurich. Without one, days are reckoned by the sun: local mean solar time.");

    public static Option<string[]> Date() => For("--date", "date", "A local date, such as 2026-02-14; it stands in for that of a plan.");

    public static Option<string[]> Plan() => For("--plan", "file", "A plan as JSON (docs/plan.schema.json).");

    public static Option<string[]> Grids()
    {
        var option = For("--grid", "file", "Elevation grids, one or several: SRTM .hgt (or zipped), GeoTIFF, DTED, Esri ASCII.");
        option.AllowMultipleArgumentsPerToken = true;
        return option;
    }

    public static Option<bool> FillHoles() => new("--fill-holes") { Description = "Give posts without a height one from around them, where a hole is small; the answer says how many." };

    public static Option<string[]> Beyond() => For(
        "--beyond", "edge|none|metres", "What stands past the grid's edge: a smooth earth as high as the grid's own ground along that edge (the default), nothing, or a smooth earth of that height.");

    public static Option<string[]> RefractionK() => For("--refraction-k", "share", "Share of the earth's curvature that a line of sight follows. Default 0.13.", "-k");

    public static Option<string[]> Port() => For("--port", "number", $"At this machine's own address. Default {ServerOptions.UsualPort}; 0 takes a free one.");

    public static Option<bool> Ascii() => new("--ascii") { Description = "Draw pictures with plain characters." };
}
