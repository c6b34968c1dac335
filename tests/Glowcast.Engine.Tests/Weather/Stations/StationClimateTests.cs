using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>Station archives of IGRA 2 (Reference/weather/PROVENANCE.md): an invented one with decks built in, one of every oddity, and a real one outside this repository.</summary>
public class StationClimateTests
{
    /// <summary>Tops agree within 3 m, so that a flight whose top is as near to the limit may count either way.</summary>
    [Theory]
    [InlineData(700)]
    [InlineData(1000)]
    [InlineData(1400)]
    public void Decks_built_into_three_years_are_counted_month_by_month(int topM)
    {
        var (lower, upper) = (Counts(topM - 3), Counts(topM + 3));
        foreach (var row in ReferenceData.Rows("weather/igra/ZZM00099001.monthly.csv"))
        {
            var (month, hour) = ((int)row.Number("month"), (int)row.Number("hour_utc"));
            Assert.Equal((int)row.Number("soundings"), lower[(month, hour)].Soundings);
            Assert.Equal((int)row.Number("usable"), lower[(month, hour)].Usable);
            Assert.InRange((int)row.Number($"above_{topM}_m"), lower[(month, hour)].Below, upper[(month, hour)].Below);
        }
        Assert.Equal(24, lower.Count);
    }

    [Fact]
    public void From_high_up_every_deck_that_was_built_in_is_below()
    {
        var counts = Counts(6000);
        foreach (var row in ReferenceData.Rows("weather/igra/ZZM00099001.design.csv"))
            Assert.Equal((int)row.Number("decks_built_in"), counts[((int)row.Number("month"), (int)row.Number("hour_utc"))].Below);
    }

    private static Dictionary<(int, int), DeckShare> Counts(int topM)
    {
        using var list = new StreamReader(ReferenceData.Open("weather/igra/station-list.txt"));
        using var stream = ReferenceData.Open("weather/igra/ZZM00099001-data.txt.zip");
        var climate = StationClimate.Read(stream, "zip", Length.FromMetres(topM), 20, StationClimate.ElevationIn(list, "ZZM00099001"), TestContext.Current.CancellationToken);
        return climate.Months.ToDictionary(month => (month.Month, month.Hour));
    }

    [TheoryNeeds<SharedReference>]
    [InlineData(450)]
    [InlineData(700)]
    [InlineData(1000)]
    public void A_real_winter_is_counted_as_the_independent_program_did(int topM)
    {
        using var stream = File.OpenRead(GribFiles.SharedPath("igra/AUM00011035-2015-jan-mar.txt"));
        using var list = new StreamReader(GribFiles.SharedPath("igra/station-list.txt"));
        var climate = StationClimate.Read(stream, "Vienna", Length.FromMetres(topM), 20, StationClimate.ElevationIn(list, "AUM00011035"), TestContext.Current.CancellationToken);
        SameCounts(GribFiles.SharedRows("igra/AUM00011035-2015-jan-mar.monthly.csv"), climate, $"above_{topM}_m");
    }

    private static void SameCounts(IReadOnlyList<ReferenceRow> rows, StationClimate climate, string column)
    {
        foreach (var row in rows)
        {
            var month = climate.Months.Single(month => month.Month == (int)row.Number("month") && month.Hour == (int)row.Number("hour_utc"));
            Assert.Equal((int)row.Number("soundings"), month.Soundings);
            Assert.Equal((int)row.Number("usable"), month.Usable);
            Assert.Equal((int)row.Number(column), month.Below);
        }
    }

    [Fact]
    public void Every_oddity_of_the_format_is_read_as_the_table_has_it()
    {
        using var text = new StreamReader(ReferenceData.Open("weather/igra/ZZM00099001-edge.txt"));
        SameLevels(ReferenceData.Rows("weather/igra/ZZM00099001-edge.levels.csv"), [.. IgraReader.Flights(text, "edge")], 350);
    }

    [FactNeeds<SharedReference>]
    public void Real_flights_have_the_levels_of_the_table()
    {
        using var text = new StreamReader(GribFiles.SharedPath("igra/AUM00011035-2015-jan-mar.txt"));
        SameLevels(GribFiles.SharedRows("igra/AUM00011035-2015-jan-mar.levels.csv"), [.. IgraReader.Flights(text, "Vienna")], 200);
    }

    private static void SameLevels(IReadOnlyList<ReferenceRow> rows, IReadOnlyList<IgraFlight> flights, double? elevationM)
    {
        foreach (var table in rows.GroupBy(row => (row["date"], row["hour_utc"])))
        {
            var flight = flights.Single(flight => NodaTime.Text.LocalDatePattern.Iso.Format(flight.Date) == table.Key.Item1 && $"{flight.Hour}" == table.Key.Item2);
            var levels = flight.WithHeights(elevationM);
            foreach (var row in table)
            {
                var level = levels.FirstOrDefault(level => Math.Abs(level.PressureHPa - row.Number("pressure_hpa")) < 1e-6);
                var where = $"{table.Key} at {row["pressure_hpa"]} hPa";
                Same(row, "height_m", level.HeightM, 2, where);
                Same(row, "temp_c", level.TemperatureC, 0.011, where);
                Same(row, "dewpoint_c", level.DewPointC, 0.011, where);
                Same(row, "wind_speed_kt", level.WindKt, 0.011, where);
            }
        }
    }

    private static void Same(ReferenceRow row, string column, double? actual, double tolerance, string where)
    {
        if (!row.Has(column)) Assert.True(actual is null, $"{where}: {column} is missing, read {actual}");
        else Assert.True(actual is { } read && Math.Abs(read - row.Number(column)) <= tolerance, $"{where}: {column} {row[column]}, read {actual}");
    }

    [Fact]
    public void A_single_flight_is_a_sounding_and_several_are_refused()
    {
        using var reader = new StreamReader(ReferenceData.Open("weather/igra/ZZM00099001-edge.txt"));
        var text = reader.ReadToEnd();
        var flight = text[text.IndexOf("#ZZM00099001 2021", StringComparison.Ordinal)..text.IndexOf("#ZZM00099001 2022", StringComparison.Ordinal)];
        var sounding = SoundingFile.Read(flight, "flight");
        Assert.Equal("ZZM00099001", sounding.Station);
        Assert.Equal(NodaTime.Instant.FromUtc(2021, 7, 4, 12, 0), sounding.At);
        Assert.Equal(352, sounding.Levels[0].HeightM);
        var refusal = Assert.Throws<BadInputException>(() => SoundingFile.Read(text, "archive"));
        Assert.Contains("several flights", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("no archive")]
    [InlineData("#ZZM00099001 2021 13 04 12 1102    1 ncdc-gts           470500    85200\n")]
    [InlineData("#ZZM00099001 2021 07 04 12 1102    9 ncdc-gts           470500    85200\n21 -9999  97890B  352B  187B  715 -9999     0     0\n")]
    public void What_is_no_archive_is_refused(string text)
    {
        using var stream = new MemoryStream(System.Text.Encoding.ASCII.GetBytes(text));
        Assert.Throws<BadInputException>(() => StationClimate.Read(stream, "archive", Length.FromMetres(1000), 20, null, TestContext.Current.CancellationToken));
    }
}
