namespace Stillhook.Following;

/// <summary>Why the cockpit page is lit or dark.</summary>
public enum LightReason
{
    /// <summary>Lit: standing on known ground.</summary>
    OnTheGround,

    /// <summary>Lit: empty leg above the set height and speed.</summary>
    EmptyLeg,

    /// <summary>Dark: nothing arrived yet.</summary>
    NothingYet,

    /// <summary>Dark: the newest position is too old, or this machine's clock is not the receiver's.</summary>
    TooOld,

    /// <summary>Dark: positions out of order, from two sources that disagree, or after a lost link.</summary>
    FeedInDoubt,

    /// <summary>Dark: it is not known that the hook is empty.</summary>
    HookNotKnown,

    /// <summary>Dark: a load is on the hook.</summary>
    Loaded,

    /// <summary>Dark: slow, at a site or close to it.</summary>
    Slow,

    /// <summary>Dark: under the set height or speed.</summary>
    TooLowOrSlow,
}

/// <summary>Whether the cockpit page is lit, and why. Dark whenever anything is not sure.</summary>
/// <param name="Reason">Why.</param>
public readonly record struct ScreenLight(LightReason Reason)
{
    /// <summary>Whether anything is shown.</summary>
    public bool IsLit => Reason is LightReason.OnTheGround or LightReason.EmptyLeg;

    /// <summary>In words, for the ground page.</summary>
    public string Words => Reason switch
    {
        LightReason.OnTheGround => "lit: standing on the ground",
        LightReason.EmptyLeg => "lit: empty leg above the set height and speed",
        LightReason.NothingYet => "dark: no position has arrived yet",
        LightReason.TooOld => "dark: the newest position is too old by this machine's clock",
        LightReason.FeedInDoubt => "dark: positions out of order, in disagreement, or just after a lost link",
        LightReason.HookNotKnown => "dark: nothing tells for sure that the hook is empty",
        LightReason.Loaded => "dark: a load is on the hook",
        LightReason.Slow => "dark: slow, at a site or close to it",
        _ => "dark: under the set height or speed",
    };
}
