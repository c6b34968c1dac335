using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Hosting;

/// <summary>Says the faults that the service finds under the options that the user wrote.</summary>
internal static class ServiceFaults
{
    /// <exception cref="BadInputException">What <paramref name="work"/> finds wrong.</exception>
    public static T Named<T>(Func<T> work, params IReadOnlyList<(string Field, string Option)> options)
    {
        try
        {
            return work();
        }
        catch (BadInputException bad)
        {
            throw new BadInputException([.. bad.Faults.Select(fault => fault with { Field = OptionFor(fault.Field) })]);
        }

        string OptionFor(string field) => options.FirstOrDefault(option => option.Field == field).Option ?? field;
    }
}
