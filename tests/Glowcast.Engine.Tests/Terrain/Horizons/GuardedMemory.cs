using System.ComponentModel;
using System.Runtime.InteropServices;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Numbers between two pages that cannot be read: whoever reads past the one they touch ends the process.</summary>
internal sealed unsafe class GuardedMemory : IDisposable, INeed
{
    // mmap(2), mprotect(2): constants of Linux.
    private const int NoAccess = 0;
    private const int ReadWrite = 1 | 2;
    private const int PrivateAnonymous = 2 | 0x20;

    private readonly nint start;
    private readonly nuint length;

    /// <param name="atEnd">Whether the last number touches the page after, else the first the page before.</param>
    public GuardedMemory(ReadOnlySpan<float> numbers, bool atEnd)
    {
        var page = Environment.SystemPageSize;
        var room = ((numbers.Length * sizeof(float)) + page - 1) / page * page;
        length = (nuint)(room + (2 * page));
        start = Map(0, length, ReadWrite, PrivateAnonymous, -1, 0);
        if (start == -1) throw new Win32Exception();
        if (Protect(start, (nuint)page, NoAccess) != 0 || Protect(start + page + room, (nuint)page, NoAccess) != 0) throw new Win32Exception();
        Numbers = (float*)(start + page + (atEnd ? room - (numbers.Length * sizeof(float)) : 0));
        numbers.CopyTo(new Span<float>(Numbers, numbers.Length));
    }

    public static bool IsPresent => OperatingSystem.IsLinux();

    public static string Missing => "pages are made unreadable with mmap and mprotect, on Linux";

    public float* Numbers { get; }

    public void Dispose() => _ = Unmap(start, length);

    [DllImport("libc", EntryPoint = "mmap", SetLastError = true)]
    private static extern nint Map(nint address, nuint length, int protection, int flags, int file, nint offset);

    [DllImport("libc", EntryPoint = "mprotect", SetLastError = true)]
    private static extern int Protect(nint address, nuint length, int protection);

    [DllImport("libc", EntryPoint = "munmap", SetLastError = true)]
    private static extern int Unmap(nint address, nuint length);
}
