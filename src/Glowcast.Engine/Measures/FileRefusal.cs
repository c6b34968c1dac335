namespace Glowcast.Engine.Measures;

/// <summary>Why a file cannot be read or written, in plain words: what the operating system says of it is for programmers.</summary>
public static class FileRefusal
{
    // What Linux, macOS and Windows call it: ENOSPC, EDQUOT twice, ERROR_DISK_FULL and ERROR_HANDLE_DISK_FULL.
    private static readonly int[] Full = [28, 122, 69, unchecked((int)0x80070070), unchecked((int)0x80070027)];

    // EAGAIN twice, ERROR_SHARING_VIOLATION and ERROR_LOCK_VIOLATION.
    private static readonly int[] Taken = [11, 35, unchecked((int)0x80070020), unchecked((int)0x80070021)];

    // EROFS and ERROR_WRITE_PROTECT.
    private static readonly int[] ReadOnly = [30, unchecked((int)0x80070013)];

    /// <summary>Whether there is no room left.</summary>
    public static bool IsFull(IOException refusal)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        return Full.Contains(refusal.HResult);
    }

    /// <summary>Whether another program has it.</summary>
    public static bool IsTaken(IOException refusal)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        return Taken.Contains(refusal.HResult);
    }

    /// <summary>Whether its disk can only be read.</summary>
    public static bool IsReadOnly(IOException refusal)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        return ReadOnly.Contains(refusal.HResult);
    }

    /// <param name="refusal">An <see cref="IOException"/> or <see cref="UnauthorizedAccessException"/>, or what odd names bring.</param>
    /// <returns>Goes on after a colon, and ends without a full stop.</returns>
    public static string Because(Exception refusal) => refusal switch
    {
        UnauthorizedAccessException => "this user has no right to it",
        FileNotFoundException or DirectoryNotFoundException or DriveNotFoundException => "nothing is there, or nothing can be made there",
        PathTooLongException => "its name is too long",
        EndOfStreamException => "it is cut off",
        IOException io when IsFull(io) => "the disk is full",
        IOException io when IsTaken(io) => "another program has it",
        IOException io when IsReadOnly(io) => "its disk can only be read",
        IOException io => $"the disk refuses it (error {io.HResult & 0xFFFF})",
        _ => "no file can have this name",
    };
}
