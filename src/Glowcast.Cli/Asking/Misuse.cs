using System.CommandLine;
using System.CommandLine.Parsing;
using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Asking;

/// <summary>Says in our own words what is wrong with a line that cannot be understood.</summary>
internal static class Misuse
{
    /// <exception cref="BadInputException">Always.</exception>
    public static void Explain(ParseResult parsed)
    {
        var command = parsed.CommandResult.Command;
        var faults = new Faults();
        foreach (var word in Unknown(parsed.UnmatchedTokens)) faults.Add(Shortened.To80(word), WhatIsRight(command, word));
        if (!faults.Any)
            foreach (var error in parsed.Errors) faults.Add(FieldOf(error, command), error.Message);
        // Where a command is not known, nothing after it can be judged.
        throw new BadInputException(command.Subcommands.Count > 0 ? [faults.Found[0]] : faults.Found);
    }

    /// <summary>Without the words that follow an unknown option: they are its value.</summary>
    private static IEnumerable<string> Unknown(IEnumerable<string> words)
    {
        var isAfterOption = false;
        foreach (var word in words)
        {
            if (word.StartsWith('-') || !isAfterOption) yield return word;
            isAfterOption = word.StartsWith('-');
        }
    }

    private static string WhatIsRight(Command command, string word)
    {
        var name = FullName(command);
        if (command.Subcommands.Count > 0 && !word.StartsWith('-'))
            return $"Is not a command of {name}; its commands are {string.Join(", ", command.Subcommands.Select(inner => inner.Name))}.";
        var options = string.Join(", ", command.Options.Select(option => option.Name).Order(StringComparer.Ordinal));
        return word.StartsWith('-')
            ? $"Is not an option of {name}; its options are {options}."
            : $"Belongs to no option; {name} takes {options}.";
    }

    private static string FullName(Command command) => command.Parents.OfType<Command>().FirstOrDefault() is { } parent
        ? $"{FullName(parent)} {command.Name}"
        : "glowcast";

    private static string FieldOf(ParseError error, Command command) => error.SymbolResult switch
    {
        OptionResult option => option.Option.Name,
        ArgumentResult argument => argument.Argument.Name,
        _ => FullName(command),
    };
}
