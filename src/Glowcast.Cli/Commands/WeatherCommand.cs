using System.CommandLine;

namespace Glowcast.Cli.Commands;

/// <summary>Fields of weather models.</summary>
internal sealed class WeatherCommand : Command
{
    public WeatherCommand(Terminal terminal) : base("weather", "Cloud by the hour, out of files of weather models (GRIB 2): weather info, value, profile, beam.")
    {
        Subcommands.Add(new WeatherInfoCommand(terminal));
        Subcommands.Add(new WeatherValueCommand(terminal));
        Subcommands.Add(new WeatherProfileCommand(terminal));
        Subcommands.Add(new WeatherBeamCommand(terminal));
    }
}
