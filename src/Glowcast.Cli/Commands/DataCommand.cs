using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Hosting;
using Glowcast.Engine.Measures;
using Glowcast.Server.Store;

namespace Glowcast.Cli.Commands;

/// <summary>What a service keeps.</summary>
internal sealed class DataCommand : Command
{
    public DataCommand(Terminal terminal) : base("data", "What a service keeps: data backup, data restore, data salvage.")
    {
        Subcommands.Add(new BackupCommand(terminal));
        Subcommands.Add(new RestoreCommand(terminal));
        Subcommands.Add(new SalvageCommand(terminal));
    }
}

/// <summary>A data folder as one file.</summary>
internal sealed class BackupCommand : AnswerCommand
{
    private readonly Option<string[]> data = Ask.For("--data", "folder", "The data folder, also while a service uses it.");
    private readonly Option<string[]> to = Ask.For("--out", "file", "The backup to write, a new zip file.");

    public BackupCommand(Terminal terminal) : base(
        "backup", "Write all that a service keeps into one file.", "glowcast data backup --data glowcast-data --out backup.zip", terminal) => Takes(data, to);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var (folder, file) = (asked.Required(data, "a data folder", (text, _) => text), asked.Required(to, "a file such as backup.zip", (text, _) => text));
        _ = OutputFile.Of(asked, to);
        if (File.Exists(file)) asked.Faults.Add(to.Name, $"Is there already, and no backup is written over another; name a new file. Got '{file}'.");
        asked.Faults.ThrowIfAny();
        var outcome = ServiceFaults.Named(() => Backup.Write(folder!, file!), ("data", data.Name), ("backup", to.Name));
        Reply(asked, new { Backup = file, outcome.Grids, outcome.Damaged }, page => page.Line($"{file} holds the database and {outcome.Grids} grids."));
        LeftOut.Say(data.Name, outcome.Damaged, "is not in the backup");
    }
}

/// <summary>A data folder out of one file.</summary>
internal sealed class RestoreCommand : AnswerCommand
{
    private readonly Option<string[]> from = Ask.For("--from", "file", "A backup.");
    private readonly Option<string[]> data = Ask.For("--data", "folder", "The data folder to make; empty, or not there yet.");

    public RestoreCommand(Terminal terminal) : base(
        "restore", "Fill a new data folder from a backup.", "glowcast data restore --from backup.zip --data glowcast-data", terminal) => Takes(from, data);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var (file, folder) = (asked.Required(from, "a backup", (text, _) => text), asked.Required(data, "a new folder", (text, _) => text));
        if (file is not null) InputFile.Open(file, from.Name, "a backup", asked.Faults)?.Dispose();
        if (File.Exists(folder)) asked.Faults.Add(data.Name, $"Is a file; name a new folder. Got '{folder}'.");
        asked.Faults.ThrowIfAny();
        var outcome = ServiceFaults.Named(() => Backup.Restore(file!, folder!), ("data", data.Name), ("backup", from.Name));
        Reply(asked, new { Data = folder, outcome.Grids, outcome.Damaged }, page => page.Line($"{folder} holds the database and {outcome.Grids} grids."));
        LeftOut.Say(from.Name, outcome.Damaged, "was not restored");
    }
}

/// <summary>What can be read of a damaged data folder, in a new one.</summary>
internal sealed class SalvageCommand : AnswerCommand
{
    private readonly Option<string[]> data = Ask.For("--data", "folder", "The damaged data folder; no service may use it. It is not touched.");
    private readonly Option<string[]> to = Ask.For("--to", "folder", "The data folder to make; empty, or not there yet.");

    public SalvageCommand(Terminal terminal) : base(
        "salvage", "Save what can be read of a damaged data folder into a new one.", "glowcast data salvage --data glowcast-data --to saved-data", terminal) => Takes(data, to);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var (folder, saved) = (asked.Required(data, "a data folder", (text, _) => text), asked.Required(to, "a new folder", (text, _) => text));
        if (File.Exists(saved)) asked.Faults.Add(to.Name, $"Is a file; name a new folder. Got '{saved}'.");
        asked.Faults.ThrowIfAny();
        var outcome = ServiceFaults.Named(() => Salvage.Into(folder!, saved!), ("data", data.Name), ("to", to.Name));
        Reply(asked, new { Data = saved, outcome.Documents, outcome.Notes, outcome.Grids, outcome.Damaged }, page =>
            page.Line($"{saved} holds {outcome.Documents} lookouts, sets of gear, plans and soundings, {outcome.Notes} field notes and {outcome.Grids} grids."));
        LeftOut.Say(data.Name, outcome.Damaged, "was left behind");
    }
}

/// <summary>Says what was not done, after what was: then the command has not done all that it was asked for.</summary>
internal static class LeftOut
{
    /// <exception cref="BadInputException">Something was left out.</exception>
    public static void Say(string option, IReadOnlyList<string> damaged, string what)
    {
        if (damaged.Count > 0) throw new BadInputException([.. damaged.Select(grid => new Fault(option, $"Grid {grid}; it {what}, all else is done."))]);
    }
}
