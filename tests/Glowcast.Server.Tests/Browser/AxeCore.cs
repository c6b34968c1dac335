namespace Glowcast.Server.Tests.Browser;

/// <summary>The script of axe-core, looked for where AXE_CORE says, and a browser to run it in.</summary>
internal sealed class AxeCore : INeed
{
    private AxeCore()
    {
    }

    public static bool IsPresent => Chromium.IsPresent && File.Exists(Script);

    public static string Missing => "no axe-core: AXE_CORE names no file";

    public static string? Script => Environment.GetEnvironmentVariable("AXE_CORE");
}
