namespace Glowcast.Engine.Measures;

/// <summary>One thing that is wrong with an input.</summary>
/// <param name="Field">Where: the field's path in the input, as the user wrote it (<c>camera.pixelsWide</c>).</param>
/// <param name="Message">What is wrong, and what would be right.</param>
public sealed record Fault(string Field, string Message)
{
    public override string ToString() => $"{Field}: {Message}";
}

/// <summary>An input that cannot be used. Carries every fault found, not only the first.</summary>
public sealed class BadInputException : Exception
{
    public BadInputException(string field, string message) : this([new Fault(field, message)])
    {
    }

    public BadInputException(IReadOnlyList<Fault> faults) : base(string.Join(Environment.NewLine, faults)) => Faults = faults;

    public IReadOnlyList<Fault> Faults { get; }
}
