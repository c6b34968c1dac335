using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Commands;

/// <summary>A command that looks over elevation grids.</summary>
internal abstract class GridAnswerCommand(string name, string description, string example, Terminal terminal)
    : AnswerCommand(name, description, example, terminal)
{
    protected Option<string[]> Grids { get; } = Ask.Grids();

    protected Option<string[]> Beyond { get; } = Ask.Beyond();

    protected Option<string[]> RefractionK { get; } = Ask.RefractionK();

    /// <summary>Null after a fault.</summary>
    protected ElevationGrid? ReadGrids(Question asked)
    {
        var paths = asked.Texts(Grids);
        return asked.Has(Grids) && paths.Count == 0 ? null : asked.Try(() => GridFiles.Read(paths, Grids.Name));
    }

    /// <summary>How lines of sight run; what the command line leaves open is as in <paramref name="usual"/>.</summary>
    protected SightModel ReadSight(Question asked, SightModel usual) => new()
    {
        RefractionK = asked.Number(RefractionK, -1, 0.9, usual.RefractionK),
        BeyondGrid = asked.Has(Beyond) ? asked.Optional(Beyond, (text, field) => Written.Beyond(text, field)) : usual.BeyondGrid,
    };
}
