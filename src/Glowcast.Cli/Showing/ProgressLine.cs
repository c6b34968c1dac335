namespace Glowcast.Cli.Showing;

/// <summary>How far long work has come, on one line of the screen that vanishes when it is done. Where nobody watches,
/// nothing is written.</summary>
internal sealed class ProgressLine(Terminal terminal, string what) : IProgress<double>, IDisposable
{
    private readonly Lock line = new();
    private int percent = -1;
    private int written;

    /// <param name="value">Share done, 0 to 1.</param>
    public void Report(double value)
    {
        if (!terminal.ErrorIsScreen) return;
        lock (line)
        {
            // Reports of parallel work may overtake one another.
            if ((int)(100 * value) <= percent) return;
            percent = (int)(100 * value);
            var text = $"{what}: {percent} %";
            terminal.Error.Write($"\r{text}");
            written = text.Length;
        }
    }

    public void Dispose()
    {
        if (written > 0) terminal.Error.Write($"\r{new string(' ', written)}\r");
    }
}
