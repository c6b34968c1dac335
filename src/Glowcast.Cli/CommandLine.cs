using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Commands;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Measures;

namespace Glowcast.Cli;

/// <summary>The command line: words in, an answer on one writer, everything else on the other, and an exit code.</summary>
public static class CommandLine
{
    public const int Answered = 0;
    public const int OurFault = 1;
    public const int BadInput = 2;
    public const int Stopped = 130;

    /// <summary>Runs one command as if neither writer were a screen.</summary>
    /// <returns>One of the exit codes above.</returns>
    public static Task<int> RunAsync(IReadOnlyList<string> args, TextWriter stdout, TextWriter stderr, CancellationToken cancel = default) =>
        RunAsync(args, new Terminal(stdout, stderr), cancel);

    internal static async Task<int> RunAsync(IReadOnlyList<string> args, Terminal terminal, CancellationToken cancel)
    {
        try
        {
            var parsed = RootOf(terminal).Parse(args, new ParserConfiguration { EnablePosixBundling = false, ResponseFileTokenReplacer = null });
            if (parsed.Action is ParseErrorAction) Misuse.Explain(parsed);
            return await parsed.InvokeAsync(
                new InvocationConfiguration
                {
                    Output = terminal.Out,
                    Error = terminal.Error,
                    EnableDefaultExceptionHandler = false,
                    ProcessTerminationTimeout = null,
                },
                cancel);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) terminal.Tell($"{fault}");
            return BadInput;
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            terminal.Tell("Stopped.");
            return Stopped;
        }
        catch (Exception fault)
        {
            terminal.Tell(terminal.TracesFaults ? $"{fault}" : Apology(fault));
            return OurFault;
        }
    }

    private static string Apology(Exception fault) =>
        $"Sorry, glowcast failed, and the fault is ours: {fault.GetBaseException().Message.Split('\n')[0].Trim().TrimEnd('.')}. Set GLOWCAST_TRACE=1 to see where.";

    /// <summary>All commands and their options.</summary>
    internal static RootCommand RootOf(Terminal terminal)
    {
        var root = new RootCommand(
            "When the sun reaches a far ridge while the valley is still in shade, and whether a stitched panorama can be shot in that time.")
        {
            new SunCommand(terminal),
            new SkyCommand(terminal),
            new HorizonCommand(terminal),
            new SightCommand(terminal),
            new SkylineCommand(terminal),
            new LightCommand(terminal),
            new SetCommand(terminal),
            new ForecastCommand(terminal),
            new CardCommand(terminal),
            new SeasonCommand(terminal),
            new CloudCommand(terminal),
            new WeatherCommand(terminal),
            new TakeCommand(terminal),
            new GridCommand(terminal),
            new ServeCommand(terminal),
            new DataCommand(terminal),
            new DemoCommand(terminal),
            new CompletionCommand(terminal),
        };
        foreach (var help in root.Options.OfType<HelpOption>()) help.Action = new Help(terminal, isAsked: true);
        ShowHelpWithoutCommand(root, terminal);
        return root;
    }

    /// <summary>Words that only lead to other commands answer with their help.</summary>
    private static void ShowHelpWithoutCommand(Command command, Terminal terminal)
    {
        if (command.Subcommands.Count == 0) return;
        command.Action = new Help(terminal, isAsked: false);
        foreach (var inner in command.Subcommands) ShowHelpWithoutCommand(inner, terminal);
    }
}
