using System.Text;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>The bag, the rotator's stops and the moving cloud in a plan.</summary>
public class PlanAdditionsTests
{
    [Fact]
    public void The_bag_the_click_stops_and_the_cloud_are_read()
    {
        var plan = Read("[85, 200]", "[5, 7.5]", """ "cloudSpeedMs": 4, "cloudDistanceKm": 12 """);
        Assert.Equal([85, 200], plan.OtherLenses.Select(lens => lens.FocalLength.Millimetres));
        Assert.All(plan.OtherLenses, lens => Assert.Equal(11, lens.Aperture));
        Assert.Equal([5, 7.5], plan.Set.ClickStops.Select(stop => Math.Round(stop.Degrees, 9)));
        Assert.Equal(4, plan.Conditions.CloudSpeedMs);
        Assert.Equal(12, plan.Conditions.CloudDistance!.Value.Kilometres, 1e-9);
    }

    [Fact]
    public void They_may_all_be_left_out()
    {
        var plan = Read("null", "null", "");
        Assert.Empty(plan.OtherLenses);
        Assert.Empty(plan.Set.ClickStops);
        Assert.Null(plan.Conditions.CloudSpeedMs);
        Assert.Null(Read("[]", "[]", """ "cloudSpeedMs": 4, "deckTopM": 900 """).Conditions.CloudDistance);
    }

    [Fact]
    public void The_crest_stands_where_it_is_wanted()
    {
        var plan = ValleyLight.Plan with { CrestShare = 0.5 };
        Assert.Equal(0.5, CrestPlacement.Share(ValleyLight.Set(plan.Set, plan).Layout.Clean, ValleyLight.Crest), 6);

        var both = """{ "span": { "fromDeg": 350, "toDeg": 20, "centrePitchDeg": 2, "crestShare": 0.5 } }""";
        var refusal = Assert.Throws<BadInputException>(() => PlanReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(both)), PlanNeeds.Nothing));
        Assert.Equal("span.crestShare", Assert.Single(refusal.Faults).Field);
    }

    [Fact]
    public void What_is_known_of_the_ground_is_read()
    {
        var plan = Ground("true", "3200", "0.2");
        Assert.Equal(0.2, plan.HeightError!.Value.Metres);
        Assert.True(plan.FillHoles);
        Assert.Equal(3200, plan.Conditions.Sight.HighestBeyond.Metres);
        var usual = Ground("null", "null", "null");
        Assert.Null(usual.HeightError);
        Assert.False(usual.FillHoles);
        Assert.Equal(8849, usual.Conditions.Sight.HighestBeyond.Metres);
        var refusal = Assert.Throws<BadInputException>(() => Ground("1", "12000", "0"));
        Assert.Equal(["conditions.highestBeyondM", "fillHoles", "heightErrorM"], refusal.Faults.Select(fault => fault.Field).Order());

        static Plan Ground(string fillHoles, string highestBeyond, string heightError) => PlanReader.Read(
            new MemoryStream(Encoding.UTF8.GetBytes(
                $$"""{ "span": { "fromDeg": 350, "toDeg": 20 }, "fillHoles": {{fillHoles}}, "heightErrorM": {{heightError}}, "conditions": { "highestBeyondM": {{highestBeyond}} } }""")),
            PlanNeeds.Nothing);
    }

    [Theory]
    [InlineData("[85, 0]", "[5]", "", "lens.alternativesMm")]
    [InlineData("85", "[5]", "", "lens.alternativesMm")]
    [InlineData("[\"85\"]", "[5]", "", "lens.alternativesMm")]
    [InlineData("[1e999]", "[5]", "", "lens.alternativesMm")]
    [InlineData("[85]", "[-5]", "", "set.clickStopsDeg")]
    [InlineData("[85]", "[181]", "", "set.clickStopsDeg")]
    [InlineData("[85]", "[5]", " \"cloudSpeedMs\": 4 ", "conditions.cloudDistanceKm")]
    [InlineData("[85]", "[5]", " \"cloudSpeedMs\": -1, \"cloudDistanceKm\": 3 ", "conditions.cloudSpeedMs")]
    [InlineData("[85]", "[5]", " \"cloudSpeedMs\": 4, \"cloudDistanceKm\": 0 ", "conditions.cloudDistanceKm")]
    public void What_can_mean_nothing_is_refused_under_its_field(string bag, string stops, string conditions, string field)
    {
        var refusal = Assert.Throws<BadInputException>(() => Read(bag, stops, conditions));
        Assert.Equal(field, Assert.Single(refusal.Faults).Field);
    }

    private static Plan Read(string bag, string stops, string conditions) => PlanReader.Read(
        new MemoryStream(Encoding.UTF8.GetBytes($$"""
            { "span": { "fromDeg": 350, "toDeg": 20 },
              "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 6000, "pixelsHigh": 4000 },
              "lens": { "focalLengthMm": 100, "aperture": 11, "alternativesMm": {{bag}} },
              "set": { "clickStopsDeg": {{stops}} }, "conditions": { {{conditions}} } }
            """)), PlanNeeds.Gear);
}
