using System.ComponentModel;
using System.Runtime.InteropServices;
using Glowcast.Engine.Measures;

namespace Glowcast.Server.Store;

/// <summary>Makes sure that names of files have reached the disk, as flushing makes sure of what they hold.</summary>
internal static class OnDisk
{
    private const int ReadOnly = 0;

    /// <summary>After files in a folder were made, moved or deleted. Windows needs no such step.</summary>
    /// <exception cref="IOException">The disk refuses.</exception>
    public static void FlushNames(string folder)
    {
        if (OperatingSystem.IsWindows()) return;
        var handle = OpenFile(folder, ReadOnly);
        if (handle < 0) throw Refused(folder);
        try
        {
            if (Flush(handle) < 0) throw Refused(folder);
        }
        finally
        {
            _ = Close(handle);
        }
    }

    /// <summary>Whether a file lies on a disk that can only be read.</summary>
    public static bool IsReadOnly(string file)
    {
        try
        {
            using var opened = new FileStream(file, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite | FileShare.Delete);
            return false;
        }
        catch (IOException refused)
        {
            return FileRefusal.IsReadOnly(refused);
        }
        catch (UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static IOException Refused(string folder) => new($"{folder}: {new Win32Exception(Marshal.GetLastPInvokeError()).Message}", Marshal.GetLastPInvokeError());

    [DllImport("libc", EntryPoint = "open", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int OpenFile([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", EntryPoint = "fsync", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Flush(int handle);

    [DllImport("libc", EntryPoint = "close")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Close(int handle);
}
