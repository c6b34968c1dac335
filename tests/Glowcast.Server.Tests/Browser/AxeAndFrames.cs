namespace Glowcast.Server.Tests.Browser;

internal sealed class AxeAndFrames : INeed
{
    private AxeAndFrames()
    {
    }

    public static bool IsPresent => AxeCore.IsPresent && BrowserAndFrames.IsPresent;

    public static string Missing => AxeCore.IsPresent ? BrowserAndFrames.Missing : AxeCore.Missing;
}
