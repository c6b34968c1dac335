using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>Tells a database of this service from others by its schema, whatever it is called.</summary>
internal static class KnownSchema
{
    private const string Objects = "SELECT type || ' ' || name || ' ' || sql FROM sqlite_schema WHERE sql IS NOT NULL";

    private static readonly byte[] Magic = "SQLite format 3\0"u8.ToArray();

    /// <summary>Whether it has all that some version of this service has made in it.</summary>
    /// <exception cref="Engine.Measures.BadInputException">It was made by a later version.</exception>
    /// <exception cref="SqliteException">It is no database, or damaged.</exception>
    public static bool IsIn(SqliteConnection connection)
    {
        var version = Migrations.VersionOf(connection);
        if (version == 0) return false;
        return Of(version).IsSubsetOf(connection.Query(Objects, row => row.GetString(0)));
    }

    /// <summary>Whether the file is such a database. Neither it nor anything beside it is touched.</summary>
    /// <exception cref="Engine.Measures.BadInputException">It was made by a later version.</exception>
    public static bool IsInFile(string path)
    {
        if (!OwnFiles.HasContent(path) || !HasMagic(path)) return false;
        if (IsInUntouched(path)) return true;
        // What was written last may stand in the log beside it only.
        return OwnFiles.IsPlain(path + "-wal") && IsInCopy(path);
    }

    private static HashSet<string> Of(int version)
    {
        using var made = new SqliteConnection("Data Source=:memory:");
        made.Open();
        Migrations.BringForward(made, version);
        return [.. made.Query(Objects, row => row.GetString(0))];
    }

    private static bool HasMagic(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var begin = new byte[Magic.Length];
        return file.ReadAtLeast(begin, begin.Length, throwOnEndOfStream: false) == begin.Length && begin.AsSpan().SequenceEqual(Magic);
    }

    private static bool IsInUntouched(string path)
    {
        try
        {
            // SQLite makes no file beside one that it is told never changes (sqlite.org/uri.html).
            using var database = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = new Uri(path).AbsoluteUri + "?immutable=1", Mode = SqliteOpenMode.ReadOnly, Pooling = false }.ToString());
            database.Open();
            return IsIn(database);
        }
        catch (SqliteException)
        {
            return false;
        }
    }

    private static bool IsInCopy(string path)
    {
        var folder = Directory.CreateTempSubdirectory("glowcast-look-").FullName;
        var copy = Path.Combine(folder, DataFolder.DatabaseName);
        try
        {
            File.Copy(path, copy);
            File.Copy(path + "-wal", copy + "-wal");
            using var database = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = copy, Pooling = false }.ToString());
            database.Open();
            return IsIn(database);
        }
        catch (SqliteException)
        {
            return false;
        }
        finally
        {
            // Made here just now, for this user alone.
            Directory.Delete(folder, recursive: true);
        }
    }
}
