using System.Text;
using Glowcast.Cli.Showing;

namespace Glowcast.Cli;

/// <summary>Where a command writes, and what can be shown there.</summary>
/// <param name="Out">For answers only.</param>
/// <param name="Error">For progress, warnings and faults.</param>
internal sealed record Terminal(TextWriter Out, TextWriter Error)
{
    private const int PlainWidth = 80;
    private const int NarrowestWidth = 40;
    private const int WidestWidth = 120;

    /// <summary>False where the answer goes to a file or another program.</summary>
    public bool OutIsScreen { get; init; }

    public bool ErrorIsScreen { get; init; }

    public bool HasColour { get; init; }

    /// <summary>Columns to write in.</summary>
    public int Width { get; init; } = PlainWidth;

    /// <summary>Columns of the screen that <see cref="Error"/> is, where it is one.</summary>
    public int ErrorWidth { get; init; } = PlainWidth;

    /// <summary>Whether a fault of ours is told with all its inner details.</summary>
    public bool TracesFaults { get; init; }

    /// <summary>The terminal this process runs in.</summary>
    public static Terminal OfProcess()
    {
        Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        var (isScreen, isErrorScreen) = (!Console.IsOutputRedirected, !Console.IsErrorRedirected);
        return new Terminal(Console.Out, Console.Error)
        {
            OutIsScreen = isScreen,
            ErrorIsScreen = isErrorScreen,
            HasColour = WantsColour(isScreen, Environment.GetEnvironmentVariable),
            Width = isScreen ? ScreenWidth() : PlainWidth,
            ErrorWidth = isErrorScreen ? ScreenWidth() : PlainWidth,
            TracesFaults = Environment.GetEnvironmentVariable("GLOWCAST_TRACE") == "1",
        };
    }

    /// <summary>Says what is no answer: a fault, a warning, a note. On a screen its lines break between words.</summary>
    public void Tell(string text) => Error.WriteLine(ErrorIsScreen ? Wrapped.To(text, ErrorWidth) : text);

    // Some terminals do not know how wide they are.
    private static int ScreenWidth() => Console.WindowWidth is > 0 and var width ? Math.Clamp(width, NarrowestWidth, WidestWidth) : PlainWidth;

    /// <summary>Screens get colour unless the user says NO_COLOR (no-color.org) or the terminal is a dumb one.</summary>
    /// <param name="variable">Reads a variable of the environment.</param>
    internal static bool WantsColour(bool isScreen, Func<string, string?> variable) =>
        isScreen && string.IsNullOrEmpty(variable("NO_COLOR")) && variable("TERM") != "dumb";
}
