using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Asking;

/// <summary>Opens files that a user names.</summary>
internal static class InputFile
{
    /// <param name="field">Where the user named it.</param>
    /// <param name="what">What it should be, such as "a plan".</param>
    /// <returns>Null when it cannot be opened; the fault is then noted.</returns>
    public static FileStream? Open(string path, string field, string what, Faults faults)
    {
        try
        {
            if (Directory.Exists(path)) faults.Add(field, $"Is a folder; name {what} in it.");
            else if (path.Length == 0) faults.Add(field, $"Is empty; name {what}.");
            else return File.OpenRead(path);
        }
        catch (Exception missing) when (missing is FileNotFoundException or DirectoryNotFoundException)
        {
            faults.Add(field, $"Does not exist; name {what} that does. Looked for {Path.GetFullPath(path)}.");
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            faults.Add(field, $"Cannot be opened: {FileRefusal.Because(unreadable)}; name {what} that can.");
        }
        return null;
    }
}
