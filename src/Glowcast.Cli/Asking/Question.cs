using System.CommandLine;
using System.Net;
using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Asking;

/// <summary>What was asked, read option by option. Every fault is noted and reading goes on with a default value;
/// <see cref="Faults.ThrowIfAny"/> before the answer says them all.</summary>
internal sealed class Question(ParseResult parsed)
{
    public Faults Faults { get; } = new();

    public bool Has(Option option) => parsed.GetResult(option) is { Implicit: false };

    public bool Flag(Option<bool> option) => parsed.GetValue(option);

    /// <summary>All values of an option or argument that may have several.</summary>
    public IReadOnlyList<string> Texts(Option<string[]> option)
    {
        var texts = parsed.GetValue(option) ?? [];
        if (Has(option) && texts.Length == 0) Faults.Add(option.Name, $"Has no value; write {option.Name} <{option.HelpName}>.");
        return texts;
    }

    public IReadOnlyList<string> Texts(Argument<string[]> argument) => parsed.GetValue(argument) ?? [];

    /// <summary>The one value of an option; null where it is not given.</summary>
    public string? Text(Option<string[]> option)
    {
        var texts = Texts(option);
        if (texts.Count > 1) Faults.Add(option.Name, $"Is given {texts.Count} times; give it once.");
        return texts.Count == 1 ? texts[0] : null;
    }

    /// <summary>A number in [min, max]; one that is not given takes the fallback, where there is one.</summary>
    public double Number(Option<string[]> option, double min, double max, double? fallback = null)
    {
        if (!Has(option)) return Faults.InRange((double?)null, option.Name, min, max, fallback);
        return Optional(option, (text, field) => (double?)Written.Number(text, field)) is { } number
            ? Faults.InRange(number, option.Name, min, max)
            : min;
    }

    public double? NumberOrNone(Option<string[]> option, double min, double max) => Has(option) ? Number(option, min, max) : null;

    /// <summary>A whole number from 0, which stands for any free port, to 65535.</summary>
    public int Port(Option<string[]> option)
    {
        var number = Number(option, IPEndPoint.MinPort, IPEndPoint.MaxPort, 0);
        if (number != Math.Floor(number)) Faults.Add(option.Name, $"Must be a whole number; got {number}.");
        return (int)number;
    }

    /// <param name="right">What to give, such as "a date such as 2026-02-14".</param>
    /// <param name="read">Makes a value of the text; gets the name of the option for its faults.</param>
    public T? Required<T>(Option<string[]> option, string right, Func<string, string, T> read)
    {
        if (!Has(option)) Faults.Add(option.Name, $"Is missing; give {right}.");
        return Optional(option, read);
    }

    /// <inheritdoc cref="Required"/>
    public T? Optional<T>(Option<string[]> option, Func<string, string, T> read) =>
        Text(option) is { } text ? Try(() => read(text, option.Name)) : default;

    /// <summary>Notes the faults of a reading.</summary>
    public T? Try<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) Faults.Add(fault.Field, fault.Message);
            return default;
        }
    }

    /// <summary>Refuses an option that means nothing here.</summary>
    public void Refuse(Option option, string why)
    {
        if (Has(option)) Faults.Add(option.Name, why);
    }
}
