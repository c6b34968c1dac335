using Glowcast.Engine.Measures;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Problems;

/// <summary>Knows a full disk, whoever meets it.</summary>
internal static class FullDisk
{
    public const string Message = "The disk that this service keeps its data on is full; nothing of this request was kept. Make room and send it again.";

    private const int SqliteFull = 13;

    public static bool Is(Exception exception) => exception switch
    {
        SqliteException sqlite => sqlite.SqliteErrorCode == SqliteFull,
        IOException refused => FileRefusal.IsFull(refused),
        _ => false,
    };
}
