using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Tests.Light;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What can spoil a set over the hand-made valley: its floor lies flat, 902 m under the eye.</summary>
public class SpoilersTests
{
    private static readonly PlannedSet Set = ValleyLight.Set(ValleyLight.Plan.Set);
    private static readonly RidgeInView View = RidgeInView.Of(Set.Layout, ValleyLight.Scene, null);

    [Fact]
    public void The_nearest_ground_is_where_the_lower_edge_of_the_frames_meets_the_valley_floor()
    {
        var bottom = Set.Layout.Frames.Min(frame => frame.Pitch) - (Set.Layout.Field.Vertical / 2);
        var drop = Valley.Lookout.Height.Metres - Valley.FloorM;
        // A plane floor; the earth's curve and the sweep's half cells move it by less than two cells.
        Assert.Equal(drop / -bottom.Tan(), View.NearestGround!.Value.Metres, 2 * ValleyLight.Scene.Grid.Posts.CellSize.Metres);
        Assert.False(View.ReachesTheFeet);
    }

    [Fact]
    public void The_ridge_is_as_far_as_the_western_crest()
    {
        // 200 posts of 3″ of longitude at 46.5° N, straight across; the ends of a span of 40° are 1/cos 20° farther.
        var across = 200 * 3 / 3600.0 * 111_320 * Math.Cos(double.DegreesToRadians(46.5));
        Assert.InRange(View.Ridge!.Value.Metres, across * 0.99, across / Math.Cos(double.DegreesToRadians(20)));
    }

    [Fact]
    public void Ground_beyond_the_parallax_limit_needs_no_rail_and_the_sentence_says_how_far_it_is()
    {
        var parallax = Of(SpoilerKind.Parallax);
        Assert.False(parallax.Matters);
        Assert.True(parallax.Pixels < 1);
        Assert.Equal(View.NearestGround!.Value.Metres, parallax.Metres);
        Assert.Contains($"{View.NearestGround.Value.Kilometres:0.0} km away", parallax.Sentence, StringComparison.Ordinal);
        Assert.EndsWith("no rail is needed.", parallax.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Near_ground_asks_for_a_rail_that_leaves_a_pixel_and_for_the_hyperfocal_distance()
    {
        var near = View with { NearestGround = Length.FromMetres(100) };
        var parallax = Of(SpoilerKind.Parallax, near);
        Assert.True(parallax.Matters);
        Assert.Equal(Set.Layout.Parallax.ShiftPx(Length.FromMetres(100)), parallax.Pixels);
        Assert.Contains($"within {80 / parallax.Pixels!.Value:0} mm", parallax.Sentence, StringComparison.Ordinal);

        var focus = Of(SpoilerKind.Focus, near);
        Assert.Equal(Set.Layout.Sharpness.NearLimit > Length.FromMetres(100), focus.Matters);
        Assert.Contains("100 m away", focus.Sentence, StringComparison.Ordinal);
        Assert.False(Of(SpoilerKind.Focus).Matters);
    }

    [Fact]
    public void Frames_that_look_down_before_the_feet_say_that_the_grid_does_not_know_that_ground()
    {
        var feet = View with { NearestGround = View.KnownFrom };
        Assert.True(feet.ReachesTheFeet);
        Assert.Contains("nearer than the grid knows", Of(SpoilerKind.Parallax, feet).Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_grid_the_limits_are_said_and_nothing_is_made_up()
    {
        var without = Spoilers.Of(Set);
        var parallax = without.Single(spoiler => spoiler.What == SpoilerKind.Parallax);
        Assert.Null(parallax.Pixels);
        Assert.Equal(Set.Layout.Parallax.FreeFrom.Metres, parallax.Metres);
        Assert.DoesNotContain(without, spoiler => spoiler.What is SpoilerKind.CloudSideways or SpoilerKind.CloudBetweenRows);
    }

    [Fact]
    public void Level_roll_and_diffraction_are_those_of_the_layout()
    {
        Assert.Equal(Set.Layout.Levelling.WorstCropPx, Of(SpoilerKind.Levelling).Pixels);
        Assert.Equal(
            Set.Layout.Field.PixelsUp - Set.Layout.Levelling.HeightWithRollPx(Angle.FromDegrees(0.2)), Of(SpoilerKind.Roll).Pixels!.Value, 1e-9);
        // f/11 on pixels of 4.36 µm: 3.4 of them, noticeable and not strong.
        Assert.Equal(14.76 / 4.36, Of(SpoilerKind.Diffraction).Pixels!.Value, 0.01);
        Assert.Contains("noticeable", Of(SpoilerKind.Diffraction).Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Cloud_drifts_by_its_speed_over_its_distance_typed_or_taken_from_the_deck()
    {
        var plan = ValleyLight.Plan with { Conditions = new Conditions { CloudSpeedMs = 5, CloudDistance = Length.FromKilometres(2) } };
        var set = ValleyLight.Set(plan.Set, plan);
        var sideways = Spoilers.Of(set, View).Single(spoiler => spoiler.What == SpoilerKind.CloudSideways);
        Assert.Equal(set.Layout.Field.FocalLengthPx * Math.Atan(5 * set.Clock.Step.TotalSeconds / 2000), sideways.Pixels!.Value, 1e-6);
        Assert.True(sideways.Matters);
        var rows = Spoilers.Of(set, View).Single(spoiler => spoiler.What == SpoilerKind.CloudBetweenRows);
        Assert.True(rows.Pixels > sideways.Pixels);

        var deck = plan with { Conditions = new Conditions { CloudSpeedMs = 5, DeckTop = Length.FromMetres(Valley.FloorM) } };
        var seen = RidgeInView.Of(Set.Layout, ValleyLight.Scene, Length.FromMetres(Valley.FloorM));
        var drifts = Spoilers.Of(ValleyLight.Set(deck.Set, deck), seen).Where(spoiler => spoiler.What == SpoilerKind.CloudSideways);
        Assert.Equal(View.NearestGround!.Value.Metres, Assert.Single(drifts).Metres);
    }

    private static Spoiler Of(SpoilerKind what, RidgeInView? view = null) => Spoilers.Of(Set, view ?? View).Single(spoiler => spoiler.What == what);
}
