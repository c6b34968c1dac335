using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>One field at one place.</summary>
internal sealed class WeatherValueCommand : AnswerCommand
{
    private readonly Argument<string[]> files = WeatherAsked.Files();
    private readonly Option<string[]> message = Ask.For("--message", "number", "Of the message in the file, as 'weather info' counts them.");
    private readonly Option<string[]> submessage = Ask.For("--submessage", "number", "Of the field in the message. Default 1.");
    private readonly Option<string[]> latitude = Ask.Latitude();
    private readonly Option<string[]> longitude = Ask.Longitude();
    private readonly Option<bool> nearest = new("--nearest") { Description = "Take the nearest point of the grid, and do not interpolate between the four about the place." };

    public WeatherValueCommand(Terminal terminal) : base(
        "value", "The value of one field at a place.", "glowcast weather value run.grib2 --message 12 --latitude 46.1 --longitude 7.7", terminal)
    {
        Arguments.Add(files);
        Takes(message, submessage, latitude, longitude, nearest);
    }

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var paths = asked.Texts(files);
        if (paths.Count > 1) asked.Faults.Add(files.Name, $"Give one file; got {paths.Count}.");
        var (number, part) = (Whole(asked, message, null), Whole(asked, submessage, 1));
        var point = GeoPoint.FromDegrees(asked.Number(latitude, -90, 90), asked.Number(longitude, -180, 360));
        var set = WeatherAsked.Read(asked, paths, files.Name, Terminal, cancel);
        asked.Faults.ThrowIfAny();

        var field = set!.Fields.FirstOrDefault(field => field.Message == number && field.Submessage == part)
            ?? throw new BadInputException(message.Name, $"No field {number}.{part} in '{paths[0]}' can be read: it has {set.Fields.Count} that can, up to message {set.Fields[^1].Message}. 'glowcast weather info' lists them.");
        var index = field.Grid.Locate(point)
            ?? throw new BadInputException($"{latitude.Name}, {longitude.Name}", $"{point} lies outside the grid of the field, which reaches from {field.Grid.PointAt(0, 0)} to {field.Grid.PointAt(field.Grid.Ni - 1, field.Grid.Nj - 1)}.");
        var value = field.Grid.ValueAt(field.Values(), point, asked.Flag(nearest));
        var answer = new WeatherValueAnswer(
            value is { } read && double.IsFinite(read) ? read : null, ParameterNames.UnitsOf(field.Product), ParameterNames.NameOf(field.Product), asked.Flag(nearest),
            index.I, index.J, point.LatitudeDeg, point.LongitudeDeg);
        Reply(asked, answer, page =>
        {
            page.Title(answer.Value is { } known ? $"{known:0.######} {answer.Units}" : "missing");
            page.Facts(("of", answer.Name), ("level", $"{ParameterNames.LevelOf(field.Product.Level)} {field.Product.Level.Value}"), ("at", $"{point}"));
        });
    }

    private static int Whole(Question asked, Option<string[]> option, double? fallback)
    {
        var number = asked.Number(option, 1, int.MaxValue, fallback);
        if (number != Math.Floor(number)) asked.Faults.Add(option.Name, $"Must be a whole number; got {number}.");
        return (int)number;
    }
}
