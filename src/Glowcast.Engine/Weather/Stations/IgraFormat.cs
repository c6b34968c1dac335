using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>One flight as the station archives of IGRA 2 write it.</summary>
internal sealed partial class IgraFormat : ISoundingFormat
{
    public string Name => "IGRA 2 archive, one flight";

    public bool Recognises(string text) => Header().IsMatch(text);

    public Sounding Read(string text, string name)
    {
        var flights = IgraReader.Flights(new StringReader(text), name).Take(2).ToList();
        return flights.Count == 1
            ? flights[0].ToSounding(null)
            : throw new BadInputException(name, "Holds several flights; cut out the one that is meant, its line with '#' and those below it. For what a whole archive tells, ask 'glowcast cloud --station'.");
    }

    [GeneratedRegex(@"\A\s*#[A-Z]{2}[A-Z0-9]{9} \d{4} \d\d \d\d \d\d \d{4} ")]
    private static partial Regex Header();
}
