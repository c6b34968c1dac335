using Glowcast.Engine.Measures;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>The folder with all that the service keeps. One service at a time has it; where none is named it is a passing one,
/// gone with the service.</summary>
internal sealed class DataFolder : IDisposable
{
    public const string DatabaseName = "glowcast.db";
    public const string GridsName = "grids";
    private const string LockName = "in-use";
    private const string IncomingName = "incoming";

    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private readonly FileStream inUse;
    private readonly bool isPassing;

    private DataFolder(string path, bool isPassing, FileStream inUse)
    {
        (Path, this.isPassing, this.inUse) = (path, isPassing, inUse);
        Grids = Made(System.IO.Path.Combine(path, GridsName));
        Incoming = Made(System.IO.Path.Combine(path, IncomingName));
        Database = Database.Open(System.IO.Path.Combine(path, DatabaseName));
    }

    public string Path { get; }

    /// <summary>Grid files, each named by its address.</summary>
    public string Grids { get; }

    /// <summary>Files that are still arriving.</summary>
    public string Incoming { get; }

    public Database Database { get; }

    /// <param name="path">Null for a passing folder.</param>
    /// <exception cref="BadInputException">It cannot be made or written, or another service has it.</exception>
    public static DataFolder Open(string? path) => OpenWith(path, _ => { });

    /// <param name="fill">Makes the database file, before it is opened; gets its path.</param>
    /// <inheritdoc cref="Open"/>
    internal static DataFolder OpenWith(string? path, Action<string> fill)
    {
        if (path is { Length: 0 }) throw new BadInputException("data", "Is empty; name a folder, or one that is to be made.");
        try
        {
            var full = path is null ? Directory.CreateTempSubdirectory("glowcast-").FullName : Made(System.IO.Path.GetFullPath(path));
            var inUse = Take(full);
            fill(System.IO.Path.Combine(full, DatabaseName));
            return new DataFolder(full, path is null, inUse);
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new BadInputException("data", $"Cannot be used as a data folder: {FileRefusal.Because(refused)}; name another.");
        }
        catch (SqliteException broken)
        {
            throw new BadInputException("data", $"Its {DatabaseName} is no database that can be opened (SQLite error {broken.SqliteErrorCode}); restore a backup into a new folder.");
        }
    }

    public void Dispose()
    {
        Database.Dispose();
        inUse.Dispose();
        if (isPassing) Directory.Delete(Path, recursive: true);
    }

    private static FileStream Take(string folder)
    {
        try
        {
            return new FileStream(System.IO.Path.Combine(folder, LockName), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException taken) when (FileRefusal.IsTaken(taken))
        {
            throw new BadInputException("data", $"{folder} is in use by another service; end that one, or name another folder.");
        }
    }

    private static string Made(string folder) => OperatingSystem.IsWindows()
        ? Directory.CreateDirectory(folder).FullName
        : Directory.CreateDirectory(folder, OwnerOnly).FullName;
}
