namespace Glowcast.Server.Store;

/// <summary>Files of the data folder: made for this user alone, and never taken for ours where they are links or folders.</summary>
internal static class OwnFiles
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;
    private const UnixFileMode OwnerOnlyFolder = OwnerOnly | UnixFileMode.UserExecute;

    /// <summary>A new file that nobody else may read.</summary>
    /// <exception cref="IOException">There is one already, or the disk refuses.</exception>
    public static FileStream Create(string path, FileOptions options = FileOptions.None, FileShare share = FileShare.Read)
    {
        var how = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.ReadWrite, Share = share, Options = options };
        if (!OperatingSystem.IsWindows()) how.UnixCreateMode = OwnerOnly;
        return new FileStream(path, how);
    }

    /// <summary>A folder, made for this user alone where it is not there.</summary>
    public static string Folder(string path) => OperatingSystem.IsWindows()
        ? Directory.CreateDirectory(path).FullName
        : Directory.CreateDirectory(path, OwnerOnlyFolder).FullName;

    /// <summary>Whether it is there and a file, no link and no folder.</summary>
    public static bool IsPlain(FileInfo file) => file.Exists && file.LinkTarget is null && !file.Attributes.HasFlag(FileAttributes.ReparsePoint);

    /// <inheritdoc cref="IsPlain(FileInfo)"/>
    public static bool IsPlain(string path) => IsPlain(new FileInfo(path));

    /// <summary>Whether it is such a file with something in it. A pipe or a device, on which a reader would wait for ever, never has.</summary>
    public static bool HasContent(string path) => new FileInfo(path) is var file && IsPlain(file) && file.Length > 0;

    /// <summary>Deletes a file of ours; what is no plain file is left.</summary>
    /// <param name="path">Of a file that the caller has proven to be ours.</param>
    public static void Delete(string path)
    {
        if (IsPlain(path)) File.Delete(path);
    }

    /// <summary>Whether a folder that is there is reached through a link.</summary>
    public static bool IsLink(string folder) => new DirectoryInfo(folder) is { LinkTarget: not null };
}
