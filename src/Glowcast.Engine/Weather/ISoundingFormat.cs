using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>One way in which soundings are written. To add one, write one of these and name it in <see cref="SoundingFile"/>.</summary>
internal interface ISoundingFormat
{
    /// <summary>As users know it.</summary>
    string Name { get; }

    /// <summary>Judged by the content alone: soundings come from web pages and mails, under any name.</summary>
    /// <param name="text">Its lines end in line feeds.</param>
    bool Recognises(string text);

    /// <param name="text">Its lines end in line feeds.</param>
    /// <param name="name">What the user knows the text by, for faults.</param>
    /// <exception cref="BadInputException">It is not what it looks like; says what is wrong and what would be right.</exception>
    Sounding Read(string text, string name);
}
