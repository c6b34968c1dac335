using System.Text;
using System.Xml;
using System.Xml.Linq;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Card;
using Glowcast.Field.Pictures;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Field.Exports;

/// <summary>Writes a forecast as a file of any of the formats.</summary>
public static class FieldFile
{
    /// <param name="forecast">With a set.</param>
    /// <param name="writtenAt">The present moment, for the calendar; nothing else depends on it.</param>
    /// <exception cref="BadInputException">The magnetic declination is neither given nor can it be modelled; or there is nothing to draw.</exception>
    public static byte[] Write(LightForecast forecast, CardChoices choices, FieldFormat format, Instant writtenAt)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        ArgumentNullException.ThrowIfNull(choices);
        if (forecast.Set is not { } set) throw new ArgumentException("The forecast has no set to take along.", nameof(forecast));
        var title = $"Glowcast, {Say.Iso(forecast.Plan.Date!.Value)}";
        return format switch
        {
            _ when format == FieldFormat.Card => Utf8(new FieldCard(forecast, choices).Html()),
            _ when format == FieldFormat.Calendar => Utf8(CalendarFile.Of(forecast, choices, writtenAt)),
            _ when format == FieldFormat.Gpx => Xml(GpxFile.Of(Map())),
            _ when format == FieldFormat.Kml => Xml(KmlFile.Of(Map(), title)),
            _ when format == FieldFormat.GeoJson => Utf8(GeoJsonFile.Of(Map()).ToJsonString()),
            _ when format == FieldFormat.Csv => Utf8(FramesTable.Of(forecast, set, choices.DeclinationFor(forecast))),
            _ when format == FieldFormat.Png => new Plate(forecast).Png(),
            _ when format == FieldFormat.Svg => Utf8(new Plate(forecast).Svg()),
            _ => throw new ArgumentException($"Is no format: {format}.", nameof(format)),
        };

        FieldMap Map() => FieldMap.Of(forecast, choices.DeclinationFor(forecast));
    }

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);

    private static byte[] Xml(XElement root)
    {
        using var bytes = new MemoryStream();
        using (var xml = XmlWriter.Create(bytes, new XmlWriterSettings { Encoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), Indent = true })) root.Save(xml);
        return bytes.ToArray();
    }
}
