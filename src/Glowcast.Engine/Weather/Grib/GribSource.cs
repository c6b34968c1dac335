using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>A GRIB file as it can be opened again and again: its messages are found once, and fields are read where they lie.</summary>
/// <param name="Name">What the user knows it by.</param>
/// <param name="Open">Gives a new stream that can seek; who opens it disposes it.</param>
public sealed record GribSource(string Name, Func<Stream> Open)
{
    public static GribSource OnDisk(string path) => new(path, () => File.OpenRead(path));

    public static GribSource InMemory(string name, byte[] bytes) => new(name, () => new MemoryStream(bytes, writable: false));

    /// <exception cref="BadInputException">The file went away, changed, or its disk fails.</exception>
    internal T Read<T>(Func<Stream, T> read)
    {
        try
        {
            using var stream = Open();
            return read(stream);
        }
        catch (Exception refusal) when (refusal is IOException or UnauthorizedAccessException)
        {
            throw new BadInputException(Name, $"Cannot be read: {FileRefusal.Because(refusal)}.");
        }
    }
}
