using Glowcast.Engine.Forecast;

namespace Glowcast.Field.Words;

/// <summary>What to do about a day without light.</summary>
internal static class NoLightWords
{
    public static string NextStep(NoLightCause cause) => cause switch
    {
        NoLightCause.LookoutInCloud => "Take a lookout above the top of the cloud, or another day.",
        NoLightCause.NoRidgeInView => "Look another way, take a smaller ridgeFromKm, or add the grid that holds the ridge.",
        NoLightCause.NearGroundInTheWay => "Move the lookout or raise its eye until the far ridge shows, or take a smaller ridgeFromKm if the near ground is the subject.",
        NoLightCause.RidgeOutsideThePicture => "Pitch the rows to the ridge with centrePitchDeg, or leave it out; more rows show more.",
        NoLightCause.SunStaysDown => "Come when the sun is back; the moon and the twilight are under the sky of the day.",
        NoLightCause.RidgeNeverLit => "Look for the season in which the sun reaches this ridge, or turn to a ridge that faces the sun.",
        NoLightCause.TooLittleLit => "Shoot the lit part of the span only, or look for another day with the season.",
        NoLightCause.LightTooUnsure => "Know heights and air better (heightErrorM, pressureHPa, aerosolBeta), or look for a day with longer light with the season.",
        NoLightCause.NearlyEnough => "Very little is missing: allow it with columnsLit or valleyLit, or shoot a slightly smaller span.",
        NoLightCause.NoSuchPicture => "Leave picture out of the plan to see which pictures the day offers, or look for another day.",
        NoLightCause.SunNeverSets => "With the sun up all day the valley is never in shade: allow more of it lit with valleyLit, or come in a darker season.",
        _ => "Allow more of the valley lit with valleyLit, take a smaller span, or look for another day with the season.",
    };
}
