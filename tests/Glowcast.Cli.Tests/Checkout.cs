namespace Glowcast.Cli.Tests;

/// <summary>The top folder of the source.</summary>
internal static class Checkout
{
    public static string Root { get; } = Find();

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "Glowcast.sln"))) folder = folder.Parent;
        return folder.FullName;
    }
}
