using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>Elevation grids themselves.</summary>
internal sealed class GridCommand : Command
{
    public GridCommand(Terminal terminal) : base("grid", "Look at elevation grids: grid info.") =>
        Subcommands.Add(new GridInfoCommand(terminal));
}

/// <summary>What one grid holds, or several when joined.</summary>
internal sealed class GridInfoCommand : AnswerCommand
{
    private readonly Argument<string[]> files = new("file")
    {
        Description = "Elevation grids: SRTM .hgt (or zipped), GeoTIFF, DTED, Esri ASCII. Several are joined first.",
        Arity = ArgumentArity.ZeroOrMore,
    };

    private readonly Option<bool> fillHoles = Ask.FillHoles();

    public GridInfoCommand(Terminal terminal) : base(
        "info", "Where a grid lies, its spacing, its heights and its holes.", "glowcast grid info N44W072.hgt", terminal)
    {
        Arguments.Add(files);
        Takes(fillHoles);
    }

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var joined = GridFiles.Read(asked.Texts(files), files.Name, new GridReading { FillHoles = asked.Flag(fillHoles) });
        var grid = GridAnswer.Of(joined);
        Reply(asked, grid, page =>
        {
            page.Title(grid.Name);
            page.Facts(
                ("latitude", $"{grid.SouthDeg:0.######} to {grid.NorthDeg:0.######}"),
                ("longitude", $"{grid.WestDeg:0.######} to {grid.EastDeg:0.######}"),
                ("posts", $"{grid.Rows} rows x {grid.Columns} columns"),
                ("spacing", grid.LatitudeStepDeg is { } step
                    ? $"{step * 3600:0.###}″ x {grid.LongitudeStepDeg * 3600:0.###}″, about {grid.CellSizeM:0.#} m between rows"
                    : $"{grid.CellSizeM:0.##} m between rows"),
                ("coordinates", grid.Crs),
                ("heights above", grid.VerticalDatum),
                ("heights off by", GridNotes.HeightError(joined.HeightError)),
                ("heights", grid.LowestM is { } lowest ? $"{lowest:0.#} to {grid.HighestM:0.#} m" : "none: every post is a hole"),
                ("holes", grid.Holes == 0 ? "none" : $"{grid.Holes} posts without a height ({100.0 * grid.Holes / ((double)grid.Rows * grid.Columns):0.##} %)"),
                ("filled", grid.FilledPosts == 0 ? null : $"{grid.FilledPosts} posts, from around them"));
        });
    }
}
