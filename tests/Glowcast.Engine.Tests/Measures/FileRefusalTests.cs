using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Measures;

public class FileRefusalTests
{
    // Codes: errno of Linux (asm-generic/errno-base.h and errno.h), and HRESULT of Windows (winerror.h).
    public static TheoryData<Exception, string> Refusals => new()
    {
        { new UnauthorizedAccessException("Access to the path is denied."), "this user has no right to it" },
        { new FileNotFoundException("Could not find file."), "nothing is there, or nothing can be made there" },
        { new PathTooLongException("The path is too long."), "its name is too long" },
        { new EndOfStreamException("Unable to read beyond the end of the stream."), "it is cut off" },
        { new IOException("No space left on device", 28), "the disk is full" },
        { new IOException("There is not enough space on the disk.", unchecked((int)0x80070070)), "the disk is full" },
        { new IOException("The process cannot access the file.", 11), "another program has it" },
        { new IOException("Read-only file system", 30), "its disk can only be read" },
        { new IOException("Input/output error", 5), "the disk refuses it (error 5)" },
        { new ArgumentException("Null character in path."), "no file can have this name" },
    };

    [Theory, MemberData(nameof(Refusals))]
    public void What_the_system_says_is_said_in_our_words(Exception refusal, string words) => Assert.Equal(words, FileRefusal.Because(refusal));

    [Fact]
    public void A_file_that_is_open_for_one_alone_is_taken()
    {
        var path = Path.GetTempFileName();
        using var mine = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        Assert.True(FileRefusal.IsTaken(Assert.Throws<IOException>(() => new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None))));
    }
}
