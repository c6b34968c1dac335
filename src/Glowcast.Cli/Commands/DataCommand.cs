using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Hosting;
using Glowcast.Server.Store;

namespace Glowcast.Cli.Commands;

/// <summary>What a service keeps.</summary>
internal sealed class DataCommand : Command
{
    public DataCommand(Terminal terminal) : base("data", "What a service keeps: data backup, data restore.")
    {
        Subcommands.Add(new BackupCommand(terminal));
        Subcommands.Add(new RestoreCommand(terminal));
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
        var grids = ServiceFaults.Named(() => Backup.Write(folder!, file!), ("data", data.Name), ("backup", to.Name));
        Reply(asked, new { Backup = file, Grids = grids }, page => page.Line($"{file} holds the database and {grids} grids."));
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
        var grids = ServiceFaults.Named(() => Backup.Restore(file!, folder!), ("data", data.Name), ("backup", from.Name));
        Reply(asked, new { Data = folder, Grids = grids }, page => page.Line($"{folder} holds the database and {grids} grids."));
    }
}
