using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Commands;

/// <summary>A command that looks over elevation grids.</summary>
internal abstract class GridAnswerCommand(string name, string description, string example, Terminal terminal)
    : AnswerCommand(name, description, example, terminal)
{
    protected Option<string[]> Grids { get; } = Ask.Grids();

    protected Option<string[]> Beyond { get; } = Ask.Beyond();

    protected Option<string[]> RefractionK { get; } = Ask.RefractionK();

    protected Option<string[]> HighestBeyond { get; } = Ask.For(
        "--highest-beyond", "metres", "No ground past the grid's edge is higher; tells where it could matter. Default 8849, the highest on earth.");

    protected Option<string[]> Within { get; } = Ask.For("--within", "km", "Read no ground farther from the place than this. Default: all, or as much around it as can be held.");

    protected Option<bool> FillHoles { get; } = Ask.FillHoles();

    /// <summary>Null after a fault.</summary>
    /// <param name="around">The place that is asked about; null where it is faulty.</param>
    protected ElevationGrid? ReadGrids(Question asked, GeoPoint? around)
    {
        var paths = asked.Texts(Grids);
        return asked.Has(Grids) && paths.Count == 0 ? null : ReadGrids(asked, paths, Grids.Name, around);
    }

    /// <inheritdoc cref="ReadGrids(Question, GeoPoint?)"/>
    /// <param name="paths">Of the files.</param>
    /// <param name="field">Where the user wrote them.</param>
    /// <param name="fillsHoles">Whatever the command line says.</param>
    protected ElevationGrid? ReadGrids(Question asked, IReadOnlyList<string> paths, string field, GeoPoint? around, bool fillsHoles = false)
    {
        var within = asked.NumberOrNone(Within, 1, 1000);
        var reading = new GridReading
        {
            Around = asked.Faults.Any ? null : around,
            Within = within is { } km ? Length.FromKilometres(km) : null,
            FillHoles = fillsHoles || asked.Flag(FillHoles),
        };
        var grid = asked.Try(() => GridFiles.Read(paths, field, reading));
        if (grid is not null) GridNotes.Write(Terminal, grid);
        return grid;
    }

    /// <summary>How lines of sight run; what the command line leaves open is as in <paramref name="usual"/>.</summary>
    protected SightModel ReadSight(Question asked, SightModel usual) => new()
    {
        RefractionK = asked.Number(RefractionK, -1, 0.9, usual.RefractionK),
        BeyondGrid = asked.Has(Beyond) ? asked.Optional(Beyond, (text, field) => Written.Beyond(text, field)) : usual.BeyondGrid,
        HighestBeyond = Length.FromMetres(asked.Number(HighestBeyond, -500, 9000, usual.HighestBeyond.Metres)),
    };
}
