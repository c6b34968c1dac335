using System.Globalization;
using Glowcast.Engine.Measures;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>Brings the schema of a database forward, script by script; a database says itself how far it is.</summary>
internal static class Migrations
{
    private const string Folder = "schema/";

    /// <summary>The scripts, the first for a new database.</summary>
    public static IReadOnlyList<string> Scripts { get; } = Read();

    /// <exception cref="BadInputException">The database was made by a later version, or is none.</exception>
    public static void BringForward(SqliteConnection connection) => BringForward(connection, Scripts.Count);

    internal static void BringForward(SqliteConnection connection, int version)
    {
        for (var next = VersionOf(connection); next < version; next++)
        {
            using var transaction = connection.BeginTransaction(deferred: false);
            connection.Execute(Scripts[next]);
            connection.Execute(string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {next + 1}"));
            transaction.Commit();
        }
    }

    /// <summary>How many of the scripts a database has seen.</summary>
    /// <exception cref="BadInputException">The database was made by a later version.</exception>
    public static int VersionOf(SqliteConnection connection)
    {
        var found = (int)connection.Scalar<long>("PRAGMA user_version");
        return found <= Scripts.Count
            ? Math.Max(0, found)
            : throw new BadInputException("data", $"Was written by a later version (schema {found}; this one knows {Scripts.Count}). Use that version, or restore a backup of before.");
    }

    private static List<string> Read()
    {
        var assembly = typeof(Migrations).Assembly;
        var names = assembly.GetManifestResourceNames().Where(name => name.StartsWith(Folder, StringComparison.Ordinal)).Order(StringComparer.Ordinal);
        return [.. names.Select(name =>
        {
            using var text = new StreamReader(assembly.GetManifestResourceStream(name)!);
            return text.ReadToEnd();
        })];
    }
}
