using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Field.Pictures;
using Glowcast.Server.Answers;
using Glowcast.Server.Notes;

namespace Glowcast.Server.Forecasts;

/// <summary>One forecast in all the forms it is asked for, each under its own key.</summary>
internal static class ForecastParts
{
    public const string Bare = "forecast";
    public const string WithPictures = "pictures";
    public const string ChartJson = "chart.json";
    public const string ChartBinary = "chart.bin";
    public const string ChartPicture = "chart.png";

    public static string Key(string address, string part) => $"{address}/{part}";

    public static Dictionary<string, byte[]> Of(string address, LightForecast forecast, FieldNotesAnswer? notes)
    {
        var pictured = ForecastAnswer.Of(forecast, withPictures: true) with { Notes = notes };
        var parts = new Dictionary<string, byte[]>
        {
            [Key(address, Bare)] = Json(pictured with { Chart = null, Picture = null }),
            [Key(address, WithPictures)] = Json(pictured),
        };
        if (pictured.Chart is not { } chart) return parts;
        parts[Key(address, ChartJson)] = Json(chart);
        parts[Key(address, ChartBinary)] = ChartBytes.Write(chart);
        parts[Key(address, ChartPicture)] = new Plate(forecast).ChartPng()!;
        return parts;
    }

    private static byte[] Json<T>(T answer) => JsonSerializer.SerializeToUtf8Bytes(answer, AnswerJson.Options);
}
