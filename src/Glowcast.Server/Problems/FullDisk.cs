using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Problems;

/// <summary>Knows a full disk, whoever meets it.</summary>
internal static class FullDisk
{
    public const string Message = "The disk that this service keeps its data on is full; nothing of this request was kept. Make room and send it again.";

    private const int SqliteFull = 13;

    // ENOSPC and EDQUOT of Linux; ERROR_DISK_FULL and ERROR_HANDLE_DISK_FULL of Windows.
    private static readonly int[] Codes = [28, 122, unchecked((int)0x80070070), unchecked((int)0x80070027)];

    public static bool Is(Exception exception) => exception switch
    {
        SqliteException sqlite => sqlite.SqliteErrorCode == SqliteFull,
        IOException refused => Codes.Contains(refused.HResult),
        _ => false,
    };
}
