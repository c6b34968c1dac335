namespace Glowcast.Server.Tests.Browser;

internal sealed class BrowserAndFrames : INeed
{
    private BrowserAndFrames()
    {
    }

    public static bool IsPresent => Chromium.IsPresent && MadeFrames.IsPresent;

    public static string Missing => "needs a browser and exiftool";
}
