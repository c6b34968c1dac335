using Glowcast.Engine.Measures;

namespace Glowcast.Server.Store;

/// <summary>Judges whether a folder may be used for data. Looking changes nothing.</summary>
internal static class FolderOwnership
{
    // An earlier start may have been killed before it wrote anything into these.
    private static readonly string[] EmptyFiles = [DataFolder.LockName, DataFolder.DatabaseName, DataMarker.FileName];
    private static readonly string[] EmptyFolders = [DataFolder.GridsName, DataFolder.IncomingName];

    // Every disk of the ext family has one at its root.
    private const string LostAndFound = "lost+found";

    /// <param name="folder">It is there.</param>
    /// <exception cref="BadInputException">It holds something, and nothing shows that it is a data folder.</exception>
    public static FolderFound Judge(string folder)
    {
        if (DataMarker.Read(folder) is { } marker) return new FolderFound(marker, FolderOrigin.Own);
        if (IsUnused(folder)) return new FolderFound(DataMarker.New(isPassing: false), FolderOrigin.Empty);
        if (KnownSchema.IsInFile(Path.Combine(folder, DataFolder.DatabaseName))) return new FolderFound(DataMarker.New(isPassing: false), FolderOrigin.Earlier);
        throw new BadInputException("data", $"{folder} is not empty and no data folder: it has neither {DataMarker.FileName} nor a {DataFolder.DatabaseName} of this program. Nothing in it was touched; name an empty folder, or one that is to be made.");
    }

    private static bool IsUnused(string folder) => new DirectoryInfo(folder).EnumerateFileSystemInfos().All(entry => entry switch
    {
        DirectoryInfo { LinkTarget: null } inner => inner.Name == LostAndFound || (EmptyFolders.Contains(inner.Name) && !inner.EnumerateFileSystemInfos().Any()),
        FileInfo file => EmptyFiles.Contains(file.Name) && OwnFiles.IsPlain(file) && file.Length == 0,
        _ => false,
    });
}

/// <param name="Marker">That it has, or is to get.</param>
internal sealed record FolderFound(DataMarker Marker, FolderOrigin Origin);

internal enum FolderOrigin
{
    /// <summary>It has a marker.</summary>
    Own,

    /// <summary>Nothing is in it.</summary>
    Empty,

    /// <summary>A database of this service is in it, of a release that wrote no markers.</summary>
    Earlier,
}
