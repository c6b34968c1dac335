using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>One file format for elevation grids. To add a format, write one of these and name it in <see cref="GridFile"/>.</summary>
internal interface IGridFormat
{
    /// <summary>As users know it.</summary>
    string Name { get; }

    /// <summary>Judged by the file's name alone.</summary>
    bool Recognises(string fileName);

    /// <summary>Reads where the grid lies, and what it is made of; its heights stay in the file.</summary>
    /// <param name="stream">Seekable, at its beginning; open as long as heights are to be read.</param>
    /// <exception cref="BadInputException">The file is not what its name says, or lies; names the file, what is wrong and what would be right.</exception>
    GridSource Open(Stream stream, string fileName);
}
