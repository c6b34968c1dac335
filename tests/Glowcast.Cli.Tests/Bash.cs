namespace Glowcast.Cli.Tests;

internal sealed class Bash : INeed
{
    private Bash()
    {
    }

    public static bool IsPresent => File.Exists("/bin/bash");

    public static string Missing => "no bash on this machine";
}
