using System.Text;
using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Tests.Weather;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Forecast;

public class CloudInPlanTests
{
    [Fact]
    public void A_plan_may_hold_a_sounding_and_its_deck_is_given()
    {
        var given = GivenDeck.Of(Read($"\"sounding\": {JsonSerializer.Serialize(MadeSoundings.Listing)}"));
        Assert.Equal((DeckSource.Sounding, given.Diagnosis!.Deck!.TopHigh), (given.Source, given.Top));
    }

    [Fact]
    public void A_typed_deck_goes_before_that_of_the_sounding()
    {
        var given = GivenDeck.Of(Read($"\"deckTopM\": 1234, \"sounding\": {JsonSerializer.Serialize(MadeSoundings.Listing)}"));
        Assert.Equal((DeckSource.Typed, 1234), (given.Source, given.Top!.Value.Metres));
        Assert.NotNull(given.Diagnosis!.Deck);
    }

    [Fact]
    public void Without_either_there_is_none()
    {
        var given = GivenDeck.Of(Read(""));
        Assert.Equal((DeckSource.None, null, null), (given.Source, given.Top, given.Diagnosis));
    }

    [Fact]
    public void The_deck_goes_on_past_the_grids_edge()
    {
        var plain = Read("\"deckTopM\": 1234, \"beyondGridM\": 200");
        Assert.Equal(1234, GivenDeck.Of(plain).In(plain).Sight.BeyondGrid.Height!.Value.Metres);
        var high = Read("\"deckTopM\": 1234, \"beyondGridM\": 2000");
        Assert.Equal(2000, GivenDeck.Of(high).In(high).Sight.BeyondGrid.Height!.Value.Metres);
    }

    [Fact]
    public void A_plan_names_sounding_through_whoever_finds_them()
    {
        string? asked = null;
        PlanReader.Read(Json("\"sounding\": \"valley.txt\""), PlanNeeds.Nothing, named =>
        {
            asked = named;
            return Profile.Read(MadeSoundings.Listing, named);
        });
        Assert.Equal("valley.txt", asked);
    }

    [Theory]
    [InlineData("4000", 4.0 * 3.912 / 2.996)]
    [InlineData("25 km", 25)]
    [InlineData("9999", 80)]
    [InlineData("CAVOK", 80)]
    [InlineData("P6SM", 80)]
    public void A_lower_limit_leaves_the_usual_visibility(string report, double km) =>
        Assert.Equal(km, Read($"\"visibility\": \"{report}\"").Visibility.Kilometres, 1e-9);

    [Fact]
    public void Layers_are_read_with_their_levels()
    {
        var layers = Read("\"cloudLayers\": { \"high\": { \"cover\": 0.5, \"baseM\": 9000 }, \"low\": { \"cover\": 1, \"baseM\": 700, \"topM\": 900 } }").CloudLayers;
        Assert.Equal(
            [new CloudLayer(CloudLevel.Low, 1, Length.FromMetres(700), Length.FromMetres(900)), new CloudLayer(CloudLevel.High, 0.5, Length.FromMetres(9000), null)], layers);
    }

    [Theory]
    [InlineData("\"sounding\": \"nothing of the kind\"", "conditions.sounding")]
    [InlineData("\"sounding\": 7", "conditions.sounding")]
    [InlineData("\"visibility\": \"far\"", "conditions.visibility")]
    [InlineData("\"visibility\": \"4000\", \"visibilityKm\": 4", "conditions.visibility")]
    [InlineData("\"cloudLayers\": { \"low\": { \"cover\": 0.5 } }", "conditions.cloudLayers.low.baseM")]
    [InlineData("\"cloudLayers\": { \"low\": { \"cover\": 5, \"baseM\": 100 } }", "conditions.cloudLayers.low.cover")]
    [InlineData("\"cloudLayers\": { \"low\": { \"cover\": 1, \"baseM\": 100, \"topM\": 99 } }", "conditions.cloudLayers.low.topM")]
    [InlineData("\"cloudLayers\": { \"fair\": { \"cover\": 1, \"baseM\": 100 } }", "conditions.cloudLayers.fair")]
    public void What_cannot_be_meant_is_refused_under_its_field(string conditions, string field) =>
        Assert.Equal(field, Assert.Single(Assert.Throws<BadInputException>(() => Read(conditions)).Faults).Field);

    private static Conditions Read(string conditions) => PlanReader.Read(Json(conditions), PlanNeeds.Nothing).Conditions;

    private static MemoryStream Json(string conditions) => new(Encoding.UTF8.GetBytes($$"""{ "span": { "fromDeg": 350, "toDeg": 20 }, "conditions": { {{conditions}} } }"""));
}
