using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>One file format for elevation grids. To add a format, write one of these and name it in <see cref="GridFile"/>.</summary>
internal interface IGridFormat
{
    /// <summary>As users know it.</summary>
    string Name { get; }

    /// <summary>Judged by the file's name alone.</summary>
    bool Recognises(string fileName);

    /// <param name="stream">Seekable, at its beginning.</param>
    /// <exception cref="BadInputException">The file is not what its name says, or lies; names the file, what is wrong and what would be right.</exception>
    ElevationGrid Read(Stream stream, string fileName);
}
