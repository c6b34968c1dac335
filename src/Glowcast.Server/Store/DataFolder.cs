using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>The folder with all that the service keeps. One service at a time has it; where none is named it is a passing one,
/// gone with the service.</summary>
internal sealed partial class DataFolder : IDisposable
{
    public const string DatabaseName = "glowcast.db";
    public const string GridsName = "grids";
    public const string IncomingName = "incoming";
    public const string LockName = "in-use";

    private readonly FileStream inUse;
    private readonly DataMarker marker;

    private DataFolder(string path, FolderFound found, FileStream inUse, bool hadDatabase)
    {
        (Path, marker, Origin, this.inUse, HadDatabase) = (path, found.Marker, found.Origin, inUse, hadDatabase);
        Grids = Inner(GridsName);
        Incoming = Inner(IncomingName);
        Ledger = new GridLedger(path);
        Database = Database.Open(System.IO.Path.Combine(path, DatabaseName));
    }

    public string Path { get; }

    /// <summary>What the folder was before it was opened.</summary>
    public FolderOrigin Origin { get; }

    /// <summary>Whether the database was there before.</summary>
    public bool HadDatabase { get; }

    /// <summary>Grid files, each named by its address.</summary>
    public string Grids { get; }

    /// <summary>Files that are still arriving.</summary>
    public string Incoming { get; }

    public GridLedger Ledger { get; }

    public Database Database { get; }

    /// <param name="path">Null for a passing folder.</param>
    /// <exception cref="BadInputException">It cannot be made or written, is a folder of something else, or another service has it.</exception>
    public static DataFolder Open(string? path)
    {
        if (path is { Length: 0 }) throw new BadInputException("data", "Is empty; name a folder, or one that is to be made.");
        try
        {
            return path is null ? OpenPassing() : OpenKept(Made(path));
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new BadInputException("data", $"Cannot be used as a data folder: {FileRefusal.Because(refused)}; name another.");
        }
        catch (SqliteException broken)
        {
            throw new BadInputException("data", $"Its {DatabaseName} is no database that can be opened (SQLite error {broken.SqliteErrorCode}); restore a backup into a new folder, or save what can be read with data salvage.");
        }
    }

    /// <summary>Where a file may arrive: its name says that it is of this folder, and half until it is held or kept.</summary>
    public string NewIncoming() => System.IO.Path.Combine(Incoming, $"{marker.Id}-{Guid.NewGuid():N}.part");

    /// <summary>Whether a name is one that <see cref="NewIncoming"/> has given.</summary>
    public bool IsIncoming(string name) => IncomingForm().Match(name) is { Success: true } match && match.Groups[1].Value == marker.Id;

    public void Dispose()
    {
        Database.Dispose();
        if (marker.IsPassing) PassingFolder.Remove(this);
        inUse.Dispose();
        if (marker.IsPassing) PassingFolder.RemoveEmptied(Path);
    }

    internal static FileStream Take(string folder)
    {
        try
        {
            var path = System.IO.Path.Combine(folder, LockName);
            return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException taken) when (FileRefusal.IsTaken(taken))
        {
            throw new BadInputException("data", $"{folder} is in use by another service; end that one, or name another folder.");
        }
    }

    /// <summary>As <see cref="Take"/>, to read only. From a disk that can only be read no service serves it: then there is nothing to take.</summary>
    internal static FileStream? TakeToRead(string folder)
    {
        try
        {
            return Take(folder);
        }
        catch (IOException refused) when (FileRefusal.IsReadOnly(refused))
        {
            return null;
        }
    }

    private static DataFolder OpenPassing()
    {
        PassingFolder.RemoveForgotten();
        var folder = PassingFolder.Make();
        var inUse = Take(folder);
        var marker = DataMarker.New(isPassing: true);
        marker.Write(folder);
        return new DataFolder(folder, new FolderFound(marker, FolderOrigin.Empty), inUse, hadDatabase: false);
    }

    private static DataFolder OpenKept(string folder)
    {
        // Before anything is made in it, and again when nobody else can change it.
        _ = FolderOwnership.Judge(folder);
        var inUse = Take(folder);
        try
        {
            var found = FolderOwnership.Judge(folder);
            var database = System.IO.Path.Combine(folder, DatabaseName);
            var hadDatabase = new FileInfo(database) is { Exists: true, Length: > 0 };
            if (found.Origin == FolderOrigin.Empty) Mark(folder, found.Marker);
            if (!File.Exists(database)) OwnFiles.Create(database).Dispose();
            var data = new DataFolder(folder, found, inUse, hadDatabase);
            if (found.Origin == FolderOrigin.Earlier) Mark(folder, found.Marker);
            return data;
        }
        catch
        {
            inUse.Dispose();
            throw;
        }
    }

    private static void Mark(string folder, DataMarker marker)
    {
        // An empty file is one that a kill has kept from being written.
        if (new FileInfo(System.IO.Path.Combine(folder, DataMarker.FileName)) is { Exists: true, Length: 0 } cutOff) OwnFiles.Delete(cutOff.FullName);
        marker.Write(folder);
    }

    // The folder itself may be named by a link: then it is the one that the link leads to.
    private static string Made(string path)
    {
        var full = OwnFiles.Folder(System.IO.Path.GetFullPath(path));
        return Directory.ResolveLinkTarget(full, returnFinalTarget: true)?.FullName ?? full;
    }

    private string Inner(string name)
    {
        var path = System.IO.Path.Combine(Path, name);
        return OwnFiles.IsLink(path)
            ? throw new BadInputException("data", $"Its {name} is a symbolic link, and none is followed inside a data folder; let {Path} itself be the link, or put the folder in its place.")
            : OwnFiles.Folder(path);
    }

    [GeneratedRegex(@"\A([0-9a-f]{32})-[0-9a-f]{32}\.part\z", RegexOptions.CultureInvariant)]
    private static partial Regex IncomingForm();
}
