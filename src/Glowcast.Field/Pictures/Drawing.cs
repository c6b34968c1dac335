namespace Glowcast.Field.Pictures;

/// <summary>Marks in the order they are drawn, on paper of a size; written as SVG or painted as PNG.</summary>
/// <param name="Title">What it shows, for those who cannot see it.</param>
internal sealed record Drawing(double Width, double Height, string Title, IReadOnlyList<Mark> Marks);
